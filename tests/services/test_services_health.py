"""The health of the shelf, on a small one whose answers are plain."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.services.cloths import add_cloth
from stash.services.health import stash_health
from stash.services.promises import promise
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.stash import Stash

CORD = {
    "structure": "woven",
    "width": "140 cm",
    "weight": "300 gsm",
    "fibres": "100% cotton",
    "hand": "medium",
    "washed": "yes",
}


def test_what_no_plan_wants_and_what_is_a_little_short(small: Stash) -> None:
    promise(small, "rain", None, "olive cord")
    need = stash_health(small)
    assert [cloth.name for cloth in need.idle] == ["blue stripe"]
    held = Length.from_mm(1000)
    add_cloth(small, {"name": "short cord", "length": "1 m", **CORD})
    found = stash_health(small)
    assert "short cord" in [cloth.name for cloth in found.idle]
    (almost,) = [one for one in found.almost if one.cloth.name == "short cord"]
    assert almost.make.name == "rain trousers"
    # Trousers of 104 cm length cannot be cut from 1 m, and hips of 100 cm lie side by side
    # on 138 cm of usable width with their mirror images: less than two lengths.
    assert Length.from_mm(40) <= almost.short <= Length.from_mm(300)
    assert held + almost.short >= Length.from_mm(1040)


def test_cloths_whose_colours_go_together(small: Stash) -> None:
    """Navy and cream: a colour and a neutral, a pair every colour wheel teaches."""
    for name, colour in (("navy", "#1f2a6d"), ("cream", "#f5efdc")):
        add_cloth(
            small, {"name": name, "length": "2 m", "colour": colour, "colour_name": name, **CORD}
        )
    (pair,) = stash_health(small).belong
    assert {pair.one.name, pair.other.name} == {"navy", "cream"}
    assert "neutral" in pair.words


def test_an_empty_shelf_is_well(empty_stash: Stash) -> None:
    found = stash_health(empty_stash)
    assert (found.idle, found.almost, found.belong, found.months) == ((), (), (), ())
