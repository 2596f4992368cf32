"""Whether a cloth that stretches keeps its shape where the pattern asks for no stretch.

ASTM D3107 measures what a stretch woven keeps of its stretch once it is let go, its growth. The
limits here are a house rule: about 3 % of growth is hardly seen, and at 8 % (8 mm on 10 cm)
knees and seats bag. For knits the trade's classes serve: below 25 % they count as stable, from
50 % as stretchy (Armstrong, from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import Structure
from stash.garment.pattern import Kind, Role
from stash.pairing.desire import at_most
from stash.pairing.gates import FLOOR, NO_STRETCH_ABOVE
from stash.pairing.judgement import Reason
from stash.trade.stretch import growth

if TYPE_CHECKING:
    from stash.pairing.case import Case

SHAPED = frozenset(
    {
        Kind.TROUSERS_ELASTIC,
        Kind.TROUSERS_TAILORED,
        Kind.SHORTS,
        Kind.SKIRT_STRAIGHT,
        Kind.PINAFORE,
        Kind.JACKET,
        Kind.COAT,
    }
)
"""Garments that are sat in, kneeled in, or hung from the shoulder in a cut shape."""

GROWTH_FINE, GROWTH_TOO_MUCH = 3.0, 8.0
KNIT_FINE, KNIT_TOO_MUCH = 35.0, 100.0
"""Per cent of stretch across a knit that is cut as if it had none."""


def stability(case: Case) -> Reason | None:
    """None where the pattern asks for stretch, or the cloth has none."""
    have = case.cloth.stretch_across
    shaped = case.role in (Role.MAIN, Role.CONTRAST) and case.pattern.kind in SHAPED
    if not shaped or case.asks.stretch_across or have is None:
        return None
    if case.cloth.structure is Structure.KNIT:
        mark = max(FLOOR, at_most(have, KNIT_FINE, KNIT_TOO_MUCH))
        if mark == 1:
            return Reason("stability", mark, f"Stretching {have:.0f} %, it is a stable knit.")
        return Reason(
            "stability",
            mark,
            f"It stretches {have:.0f} %, and the pattern asks for none: it will sag in the seat, "
            "the knees or the shoulders.",
        )
    return _woven(case, have)


def _woven(case: Case, have: float) -> Reason | None:
    if have <= NO_STRETCH_ABOVE:
        return None
    recovery = case.cloth.recovery
    if recovery is None:
        return Reason(
            "stability",
            None,
            f"It stretches {have:.0f} % and how far it springs back is not measured. Mark 10 cm, "
            "stretch it, let go, and measure after a minute: at most 10.3 cm keeps its shape.",
        )
    grown = growth(have, recovery)
    mark = max(FLOOR, at_most(grown, GROWTH_FINE, GROWTH_TOO_MUCH))
    if mark == 1:
        return Reason("stability", mark, f"Stretched, it grows by only {grown:.1f} %.")
    return Reason("stability", mark, f"Stretched, it stays {grown:.1f} % longer: it will bag.")
