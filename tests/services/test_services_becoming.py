"""What one cloth could become, over all patterns with sizes and people."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from stash.errors import BadInputError, NotFoundError, StoppedError
from stash.garment.pattern import Kind, Pattern, Size
from stash.pairing.judgement import Sureness, Verdict
from stash.services.becoming import could_become
from stash.services.cloths import add_cloth, edit_cloth
from stash.services.pairing import pair_make
from stash.services.patterns import add_chart_row, add_pattern
from stash.services.people import add_person
from stash.services.whole import read_whole
from stash.store.patterns import insert_pattern
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.stash import Stash


def test_every_pattern_is_asked_best_first(small: Stash) -> None:
    add_pattern(small, {"name": "charted skirt", "kind": "straight skirt", "sizes": "38"})
    row = {"size": "38", "width": "140 cm", "amount": "1.2 m"}
    add_chart_row(small, "charted skirt", row)
    add_pattern(small, {"name": "only an idea", "kind": "pinafore"})
    add_pattern(small, {"name": "knit top", "kind": "t-shirt"})
    found = could_become(small, "olive").could
    by_name = {could.pattern.name: could.pairing for could in found}
    assert set(by_name) == {"easy trousers", "charted skirt", "only an idea", "knit top"}
    assert by_name["easy trousers"].need.sureness is Sureness.LAID_OUT
    assert by_name["charted skirt"].need.sureness is Sureness.CHARTED
    assert by_name["charted skirt"].need.length is not None
    assert by_name["charted skirt"].need.length.mm == 1200
    assert by_name["only an idea"].verdict is Verdict.UNKNOWN
    assert by_name["only an idea"].suit > 0.5
    assert by_name["knit top"].verdict is Verdict.UNSUITED
    assert found[-1].pattern.name == "knit top"
    able = [could.pairing.verdict.can_be_cut for could in found]
    assert able == sorted(able, reverse=True)
    assert read_whole(small).makes.keys() == {1}, "nothing is kept but lays"


def test_it_says_what_pairing_the_make_says(small: Stash) -> None:
    """The other way round is the same question: the same lay, suit and reasons."""
    straight = next(p for p in pair_make(small, "rain") if p.cloth_id == 1)
    could = next(c for c in could_become(small, "olive", every_size=True).could if c.size == "42")
    assert could.pairing.need == straight.need
    assert could.pairing.reasons == straight.reasons
    assert could.waiting == ("rain trousers",)


def test_sizes_are_those_of_the_people(small: Stash) -> None:
    sizes = tuple(
        Size(label=label, body=(("hip_girth", Length.from_mm(hip)),))
        for label, hip in (("S", 900), ("M", 980))
    )
    with small.write("a pattern with a size table") as session:
        insert_pattern(session, Pattern(name="skirt", kind=Kind.SKIRT_FLARED, sizes=sizes))
    add_person(small, {"name": "Wanda", "measures": "hip girth = 96 cm"})
    mine = [c for c in could_become(small, "olive").could if c.pattern.name == "skirt"]
    assert [(c.size, c.person) for c in mine] == [("M", "Wanda")]
    every = could_become(small, "olive", every_size=True).could
    told = {(c.size, c.person) for c in every if c.pattern.name == "skirt"}
    assert told == {("M", "Wanda"), ("S", "")}


def test_what_cannot_be_asked_is_said(small: Stash) -> None:
    with pytest.raises(NotFoundError):
        could_become(small, "no such cloth")
    add_cloth(small, {"name": "used up", "structure": "woven", "width": "140cm", "length": "1 m"})
    edit_cloth(small, "used up", {"length": "0 m"})
    with pytest.raises(BadInputError, match="Nothing is left"):
        could_become(small, "used up")
    with pytest.raises(StoppedError):
        could_become(small, "olive", cancelled=lambda: True)
