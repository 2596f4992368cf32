"""A table that would be taken into the stash, as text: what each row was read as, what not."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from stash.report.columns import table, wrapped

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

MARKS = {"ready": "", "there already": "there", "not understood": "!"}
"""How a row stands, short enough for a column."""


class _Row(Protocol):
    """What is shown of a row."""

    @property
    def number(self) -> int: ...
    @property
    def texts(self) -> Mapping[str, str]: ...
    @property
    def troubles(self) -> Sequence[object]: ...
    @property
    def remarks(self) -> Sequence[str]: ...
    @property
    def standing(self) -> str: ...


def import_table(
    rows: Sequence[_Row], shown: Sequence[str], labels: Mapping[str, str], width: int = 80
) -> str:
    """One line a row: its number, how it stands, and the fields of `shown` as they were read."""
    head = (">Row", "", *(labels[key] for key in shown))
    lines = [
        (str(row.number), MARKS[row.standing], *(row.texts.get(key, "") for key in shown))
        for row in rows
    ]
    one_line = [tuple(" ".join(cell.split()) for cell in line) for line in lines]
    return table(head, one_line, width, keep=2)


def import_troubles(rows: Sequence[_Row], width: int = 80) -> list[str]:
    """Every trouble and every remark, each a sentence that begins with its row."""
    lines = []
    for row in rows:
        for trouble in row.troubles:
            lines.append(wrapped(f"Row {row.number}, {trouble}", width, hang=4))
        for remark in row.remarks:
            lines.append(wrapped(f"Row {row.number}, {remark}.", width, hang=4))
    return lines
