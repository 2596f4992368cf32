"""Searching the shelf."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.cloth.record import Cloth, FibreShare, Flaw, Hand, Structure
from stash.cloth.search import Query, matches, parse_query
from stash.errors import BadInputError
from stash.units.length import Length

JERSEY = Cloth(
    name="Sea fog jersey",
    structure=Structure.KNIT,
    fibres=(FibreShare("cotton", 95), FibreShare("elastane", 5)),
    width=Length.from_mm(1500),
    bought=Length.from_mm(3000),
    left=Length.from_mm(3000),
    weight=190,
    stretch_across=55,
    hand=Hand.SOFT,
    nap=True,
    colour="#212b4a",
    colour_name="ink",
    place="blue trunk",
)
VELVET = Cloth(
    name="Unmeasured velvet",
    structure=Structure.WOVEN,
    width=Length.from_inches(45),
    bought=Length.from_mm(2000),
    left=Length.from_mm(900),
    raised=True,
    flaws=(Flaw(100, 100, 20),),
    loved=1,
)


@pytest.mark.parametrize(
    ("text", "jersey", "velvet"),
    [
        ("", True, True),
        ("JERSEY", True, False),
        ("cotton", True, False),
        ("spandex", True, False),
        ("trunk ink", True, False),
        ('"blue trunk"', True, False),
        ('"trunk blue"', False, False),
        ("jersey velvet", False, False),
        ("width>=140cm", True, False),
        ('width>=59"', True, False),
        ("width<50in", False, True),
        ('length>"2 1/2 yd"', True, False),
        ("length<=90cm", False, True),
        ("free>2.5m", False, False),
        ("free>1.9m", True, False),
        ("weight<200", True, False),
        ("weight>5oz", True, False),
        ("weight>200", False, False),
        ("stretch>30", True, False),
        ("stretch<=100", True, False),
        ("loved<3", False, True),
        ("is:knit", True, False),
        ("is:nap", True, False),
        ("is:raised is:flawed", False, True),
        ("is:soft", True, False),
        ("state:promised", True, False),
        ("state:cut", False, True),
        ('state:"cut into" state:promised', True, True),
        ("state:free", False, False),
        ("colour:#1f2948", True, False),
        ("colour:#1f2948 colour:#808080", False, False),
        ("fog width>=140cm is:knit stretch>=50%", True, False),
    ],
)
def test_searches(text: str, jersey: bool, velvet: bool) -> None:
    query = parse_query(text)
    assert matches(query, JERSEY, promised=Length.from_mm(1000)) == jersey
    assert matches(query, VELVET) == velvet


@pytest.mark.parametrize(
    "text",
    [
        "width>wide",
        "width>140",
        "width:140cm",
        "depth>3",
        "is:lovely",
        "state:lost",
        "colour:navy",
        "weight<",
        "stretch>much",
        "is>knit",
        "weight=200",
    ],
)
def test_what_cannot_be_searched_is_said(text: str) -> None:
    with pytest.raises(BadInputError) as caught:
        parse_query(text)
    assert caught.value.hint


@given(st.text(max_size=60) | st.text('abcdis:<>="width1340 cm', max_size=40))
def test_any_text_is_a_search_or_bad_input(text: str) -> None:
    with suppress(BadInputError):
        assert isinstance(matches(parse_query(text), JERSEY), bool)


@given(st.sampled_from(["width", "length", "free"]), st.integers(1, 400))
def test_a_bound_is_kept_exactly(measure: str, cm: int) -> None:
    found = parse_query(f"{measure}>={cm}cm")
    assert found == parse_query(f"{measure}>={cm * 10} mm".replace(" ", ""))
    assert found != Query()
    assert found.comparisons[0].value == cm * 10_000_000
