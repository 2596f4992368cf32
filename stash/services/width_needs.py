"""What a pattern would need over all common widths: by its pieces and by its chart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import USUAL_SELVEDGE
from stash.garment.charts import charted_amount
from stash.pairing.needs import Question
from stash.report.records import WidthNeed, WidthNeeds
from stash.services.known import can_be_cut, nothing_to_cut
from stash.services.laybook import StashLays
from stash.services.solving import doubtful, prepared
from stash.services.subject import pattern_as_make
from stash.services.whole import read_whole
from stash.trade.widths import SHOP_WIDTHS

if TYPE_CHECKING:
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern, Role
    from stash.lay.problem import LayKind
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.units.length import Length


def width_needs(
    stash: Stash,
    ref: str,
    *,
    size: str = "",
    view: str = "",
    kind: LayKind | None = None,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
) -> WidthNeeds:
    """The need of every role at every common width, with and without nap.

    The cloth is taken as washed, the usual selvedges cut off. Every lay is kept.

    Args:
        stash: The stash.
        ref: Name or number of a pattern.
        size: One of its sizes; empty: the middle one.
        view: One of its views; empty: the first one.
        kind: How the cloth lies; None: whichever is shortest.
        progress: Told how many lays are worked out.
        cancelled: Asked between lays.

    Raises:
        BadInputError: It has neither pieces nor a chart in this size and view.
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    make = pattern_as_make(stash, ref, size=size, view=view)
    pattern = read_whole(stash).pattern_of(make)
    if not can_be_cut(pattern, make.view, make.size):
        raise nothing_to_cut(pattern, make)
    roles = pattern.roles(make.view, make.size)
    widths = SHOP_WIDTHS[stash.settings.system]
    asked = {
        (role, width, nap): _question(make, pattern, role, width, nap, kind)
        for role in roles
        for width in widths
        for nap in (False, True)
    }
    book = StashLays(stash)
    doubtful(stash, asked.values(), book)
    needs = prepared(stash, asked.values(), book=book, progress=progress, cancelled=cancelled)
    rows = tuple(
        WidthNeed(
            role=role,
            width=width,
            plain=needs.answer(asked[role, width, False]),
            napped=needs.answer(asked[role, width, True]),
            charted=_charted(make, pattern, role, width),
        )
        for role in roles
        for width in widths
    )
    return WidthNeeds(pattern=pattern, view=make.view, size=make.size, kind=kind, rows=rows)


def _question(
    make: Make, pattern: Pattern, role: Role, width: Length, nap: bool, kind: LayKind | None
) -> Question:
    return Question(
        make=make,
        pattern=pattern,
        role=role,
        width=width - USUAL_SELVEDGE.times(2),
        nap=nap,
        label=width,
        kind=kind,
    )


def _charted(make: Make, pattern: Pattern, role: Role, width: Length) -> Length | None:
    found = charted_amount(pattern, make.view, make.size, role, width, nap=False)
    return found[0] if found is not None else None
