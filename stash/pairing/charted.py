"""What the chart of a pattern says a role needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.config import System
from stash.garment.charts import charted_amount, serves
from stash.garment.size_pieces import lacking_words
from stash.pairing.judgement import Need, Sureness

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.pattern import ChartRow
    from stash.pairing.blocked import StoodIn
    from stash.pairing.needs import Question
    from stash.units.length import Length


def charted_need(question: Question, system: System = System.METRIC) -> Need:
    """The chart's own amount, one told from it, or unknown."""
    make, pattern, role = question.make, question.pattern, question.role
    rows = pattern.charts_for(make.view, make.size, role)
    label = question.label or question.width
    found = charted_amount(pattern, make.view, make.size, role, label, question.nap, system)
    if found is None:
        size = f" in size {make.size}" if make.size else ""
        lacked = lacking_words(pattern, make.view, make.size, role)
        return unknown(
            f"{pattern.name} has no {lacked or f'pieces for {role}{size}'}, and "
            + ("its chart does not reach this width." if rows else "no chart.")
        )
    amount, exact, why = found
    if exact:
        return Need(length=amount, sureness=Sureness.CHARTED, why=why)
    return Need(
        length=amount,
        sureness=Sureness.ESTIMATED,
        why=why,
        low=_at_least(rows, label, amount),
        high=amount,
    )


def _at_least(rows: Sequence[ChartRow], label: Length, amount: Length) -> Length:
    """What the chart takes on cloth as wide or wider, which never needs more; at most `amount`."""
    wider = [row.amount for row in rows if serves(label, row.width)]
    return min(amount, max(wider) if wider else min(row.amount for row in rows))


def of_whole_cloth(charted: Need, question: Question) -> Need:
    """What the chart says, if the cloth is whole as far as that reaches; else unknown.

    A chart speaks of a plain length. Cut from the cut end it meets no flaw that begins beyond.
    """
    if charted.length is None or not (question.outline or question.spots or question.patches):
        return charted
    begins = [spot.x - spot.radius for spot in question.spots]
    begins += [min(x for x, _ in patch) for patch in question.patches]
    if not question.outline and min(begins) >= charted.length.mm:
        return charted
    what = "is a remnant with an outline" if question.outline else "has flaws in the way"
    return unknown(
        f"The chart speaks of a whole length, and this cloth {what}: only the pieces, laid on it, "
        "would tell."
    )


def is_charted(charted: Need, stood: StoodIn) -> bool:
    """The chart itself speaks of just such a cloth, so nothing is estimated.

    Where it speaks of it without nap and the cloth has some, the trade's addition counts.
    """
    return stood.is_as_charted and (charted.sureness is Sureness.CHARTED or stood.adds_for_nap)


def unknown(why: str, *, too_narrow: str = "", no_room: str = "") -> Need:
    """No length, and why."""
    return Need(
        length=None,
        sureness=Sureness.UNKNOWN,
        why=why,
        too_narrow=too_narrow,
        no_room=no_room,
    )
