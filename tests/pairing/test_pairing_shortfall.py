"""What to buy: how much at the common widths, why, and what to look for."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from pairing_kit import SETTINGS, Book, asking, charted, cloth, cm, make, pattern, strip

from stash.cloth.record import Hand, Structure
from stash.config import Settings, System
from stash.garment.pattern import Kind, Role
from stash.pairing.judgement import Shortfall, Sureness
from stash.pairing.needs import Needs
from stash.pairing.shortfall import shortfall
from stash.pairing.verdict import pair
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.cloth.record import Cloth
    from stash.garment.pattern import Pattern


def to_buy(of: Pattern, *shelf: Cloth, settings: Settings = SETTINGS) -> Shortfall:
    needs = Needs(Book())
    pairings = [pair(make(), of, Role.MAIN, c, c.left, needs, settings) for c in shelf]
    return shortfall(make(), of, Role.MAIN, pairings, {c.id: c for c in shelf}, needs, settings)


def lengths(found: Shortfall) -> list[float | None]:
    return [each.length.mm if each.length else None for each in found.widths]


LEGS = pattern(
    Kind.TROUSERS_TAILORED,
    (strip("front leg", 108, 32, copies=2), strip("back leg", 108, 38, copies=2)),
)


def test_legs_take_two_lengths_until_they_lie_side_by_side() -> None:
    """Four legs 32, 32, 38 and 38 cm wide: 216 cm below 140 cm of usable width, else 108.

    At 90 cm, less selvedges and 5 % of width, 83.6 cm are left: two lengths. At 140 and 150
    cm 131.1 and 140.6 cm are left: two lengths, then one. 5 % in length: 227.4 and 113.7.
    """
    found = to_buy(LEGS)
    assert lengths(found) == [2300, 2300, 2300, 1200]
    assert all(each.sureness is Sureness.LAID_OUT for each in found.widths)


def test_two_metres_that_shrink_five_per_cent_are_bought_as_220() -> None:
    """Net 2.00 m at 5 % is 2.1053 m; sold by 10 cm that is 2.2 m, not 2.1."""
    found = to_buy(pattern(pieces=(strip("panel", 200, 60),)))
    assert lengths(found)[0] == 2200


def test_us_shops_cut_by_eighths_of_a_yard() -> None:
    """Net 1 yd at 5 % is 37.89 in; the next eighth of a yard is 1 1/8 yd, 40.5 in."""
    us = Settings(system=System.IMPERIAL)
    found = to_buy(pattern(pieces=(strip("panel", 91.44, 60),)), settings=us)
    assert [each.width for each in found.widths] == [
        Length.from_inches(inches) for inches in (36, 45, 54, 60)
    ]
    assert found.widths[0].length == Length.from_inches(40.5)


def test_charts_speak_at_the_width_shops_print() -> None:
    found = to_buy(charted(200, 150, kind=Kind.BAG))
    at_150 = found.widths[3]
    assert at_150.sureness is Sureness.CHARTED
    assert at_150.length == cm(220)


def test_a_chart_silent_about_nap_is_bought_for_cloth_with_nap() -> None:
    """The caveat printed with the width chart: 1/4 yd more for one-directional fabrics."""
    of = charted(200, 150, kind=Kind.BAG)
    silent = replace(of, charts=tuple(replace(row, with_nap=False) for row in of.charts))
    said, unsaid = (to_buy(one).widths[3] for one in (of, silent))
    assert said.length is not None
    assert unsaid.length is not None
    assert unsaid.length - said.length >= Length.from_inches(9) - cm(10)  # the shop's step
    assert "1/4 yd for the nap" in unsaid.why


def test_trousers_are_never_scaled_to_narrower_cloth() -> None:
    """At 58-60 in the legs lie side by side, at 50 in they do not: area tells nothing.

    1.30 m at 150 cm (148 usable) is a leg and a little; where two legs lie beside two it takes
    nearly twice that (the published chart: capri length 1 1/2 yd at 58-60 in, 2 3/4 at 35-36),
    and area would promise 1.70 m at 115 cm.
    """
    found = to_buy(replace(charted(130, 150), kind=Kind.TROUSERS_ELASTIC))
    narrow, cotton, suiting, wide = found.widths
    assert {each.sureness for each in (narrow, cotton, suiting)} == {Sureness.ESTIMATED}
    assert wide.sureness is Sureness.CHARTED
    for each, area in ((narrow, 219), (cotton, 170), (suiting, 139)):
        assert each.length is not None
        assert each.length > cm(area)


def test_a_piece_too_wide_for_a_width_is_named() -> None:
    found = to_buy(pattern(pieces=(strip("whole back", 60, 95),)))
    assert found.widths[0].length is None
    assert "whole back" in found.widths[0].why


def test_nearest_miss_is_the_cloth_least_short() -> None:
    of = pattern(pieces=(strip("panel", 200, 60),))
    very, barely = cloth("old sheet", id=1, left=cm(50)), cloth("blue lawn", id=2, left=cm(180))
    assert to_buy(of, very, barely).why == "Nearest is blue lawn: 0.20 m short."


@pytest.mark.parametrize(
    ("one", "words"),
    [
        ({"structure": Structure.KNIT, "name": "grey rib"}, "Stretch across is not measured"),
        ({"name": "white sheet"}, "Nothing suits. white sheet, for one: The pattern asks for knit"),
    ],
)
def test_other_misses_say_what_stands_in_the_way(one: dict[str, object], words: str) -> None:
    asked = replace(LEGS, asks=asking(structures=(Structure.KNIT,), stretch_across=25.0))
    assert words in to_buy(asked, replace(cloth(), **one)).why  # type: ignore[arg-type]


def test_bare_shelf() -> None:
    assert "shelf" in to_buy(LEGS).why


def test_what_to_look_for() -> None:
    """35 % is of the 25-50 % class; 4-6 oz/yd² (136-203 g/m²) is medium (from memory)."""
    asked = replace(
        LEGS,
        asks=asking(
            structures=(Structure.KNIT,),
            stretch_across=35.0,
            weight_low=180.0,
            weight_high=260.0,
            hand_low=Hand.SOFT,
            hand_high=Hand.MEDIUM,
            nap_allowed=False,
        ),
    )
    assert to_buy(asked).asks == (
        "Knit cloth, 35 % stretch across (10 cm to 13.5 cm; sold as moderate or stretchier), "
        "180 g/m² to 260 g/m² (medium to heavy), soft to medium in the hand, without nap."
    )
