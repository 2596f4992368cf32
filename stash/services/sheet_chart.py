"""Envelope charts as a table, one amount a row."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.garment.pattern import ChartRow
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED
from stash.services.known import known_size, known_view
from stash.services.pattern_fields import CHART_FIELDS
from stash.services.sheet_kind import SheetKind, Values
from stash.store import patterns as store

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy.orm import Session

_CELL = ("role", "view", "size", "width", "with_nap")
_ALL = (*_CELL, "amount", "rounded")


class ChartSheet(SheetKind):
    """One amount a row, for a pattern that is in the stash."""

    key, noun = "chart", "amount"
    fields = (
        ready.record(
            "pattern",
            "pattern",
            "Pattern",
            "Name of one of your patterns; for all rows: --set pattern=NAME",
            name="pattern_id",
            empty=REQUIRED,
        ),
        *CHART_FIELDS,
    )
    same = ("pattern_id", *_ALL)
    notes = ""
    shown = ("pattern", "size", "width", "amount", "view", "role")

    def kept(self, session: Session) -> Iterable[Values]:
        """Every amount of every pattern."""
        for pattern in store.all_patterns(session):
            for row in pattern.charts:
                yield {"pattern_id": pattern.id} | {name: getattr(row, name) for name in _ALL}

    def check(self, session: Session, values: Values) -> None:
        """A size and a view the pattern has."""
        pattern = store.get_pattern(session, values["pattern_id"])
        known_size(pattern, values["size"])
        known_view(pattern, values["view"])

    def keep(self, session: Session, rows: Sequence[Values]) -> None:
        """Every amount into its chart, in place of an older one for the same cell."""
        for pattern_id in dict.fromkeys(values["pattern_id"] for values in rows):
            pattern = store.get_pattern(session, pattern_id)
            charts = {_cell(row): row for row in pattern.charts}
            for values in rows:
                if values["pattern_id"] == pattern_id:
                    row = ChartRow(**{name: values[name] for name in _ALL})
                    charts[_cell(row)] = row
            store.update_pattern(session, replace(pattern, charts=tuple(charts.values())))


def _cell(row: ChartRow) -> tuple[object, ...]:
    return tuple(getattr(row, name) for name in _CELL)
