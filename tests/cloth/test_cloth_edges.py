"""Selvedges kept."""

from __future__ import annotations

from stash.cloth.edges import with_selvedges
from stash.cloth.record import Cloth, Flaw, Structure
from stash.cloth.washing import washed_usable_width
from stash.units.length import Length


def test_flaws_stay_where_they_are_on_the_cloth() -> None:
    cloth = Cloth(
        name="linen",
        structure=Structure.WOVEN,
        width=Length.from_mm(1400),
        selvedge=Length.from_mm(12),
        bought=Length.from_mm(2000),
        left=Length.from_mm(2000),
        washed=True,
        flaws=(Flaw(300, 100, 20), Flaw.cornered(((0, 0), (50, 0), (50, 40)))),
    )
    kept = with_selvedges(cloth)
    assert washed_usable_width(cloth).mm == 1376
    assert washed_usable_width(kept).mm == 1400
    spot = kept.flaws[0]
    assert (spot.x, spot.y, spot.radius) == (300, 112, 20)
    assert kept.flaws[1].points == ((0, 12), (50, 12), (50, 52))
