"""Flaws and outlines written as words, and read back by the readers of what people type."""

from __future__ import annotations

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.cloth.record import Flaw
from stash.config import System
from stash.errors import BadInputError
from stash.intake.shape_words import read_flaws, read_outline
from stash.report.shape_text import exact_flaws, exact_outline, flaws_text, outline_text

WHOLE_MM = st.integers(0, 9000).map(float)
CORNERS = st.lists(st.tuples(WHOLE_MM, WHOLE_MM), min_size=3, max_size=9).map(tuple)
WHAT = st.text(st.characters(codec="utf-8"), max_size=12).map(lambda text: text or "flaw")
FLAW = st.builds(Flaw, WHOLE_MM, WHOLE_MM, WHOLE_MM.map(lambda mm: mm + 1), what=WHAT) | st.builds(
    Flaw.cornered, CORNERS, WHAT
)
FLAWS = st.lists(FLAW, max_size=4).map(tuple)


@given(FLAWS)
def test_flaws_in_whole_millimetres_read_back_the_same(flaws: tuple[Flaw, ...]) -> None:
    assert read_flaws(flaws_text(flaws, System.METRIC)) == flaws
    assert read_flaws(exact_flaws(flaws)) == flaws


@given(FLAWS)
def test_flaws_in_inches_read_back_to_the_sixteenth(flaws: tuple[Flaw, ...]) -> None:
    back = read_flaws(flaws_text(flaws, System.IMPERIAL))
    assert [flaw.what for flaw in back] == [flaw.what for flaw in flaws]
    for one, other in zip(back, flaws, strict=True):
        assert one.x == pytest.approx(other.x, abs=25.4 / 32 + 1e-9)
        assert one.y == pytest.approx(other.y, abs=25.4 / 32 + 1e-9)
        assert one.radius == pytest.approx(other.radius, abs=25.4 / 32 + 1e-9)


def test_words_of_a_flaw_may_be_capital() -> None:
    typed = "80 cm Along, 40 CM across, 3 cm: Ink; Corners 0 0, 9 0, 9 6 CM"
    tear = ((0.0, 0.0), (90.0, 0.0), (90.0, 60.0))
    assert read_flaws(typed) == (Flaw(800, 400, 30, "Ink"), Flaw.cornered(tear))


@given(CORNERS)
def test_an_outline_reads_back(outline: tuple[tuple[float, float], ...]) -> None:
    assert read_outline(outline_text(outline, System.METRIC)) == outline
    assert read_outline(exact_outline(outline)) == outline
    inches = read_outline(outline_text(outline, System.IMPERIAL))
    for one, other in zip(inches, outline, strict=True):
        assert one == pytest.approx(other, abs=0.127 + 1e-9)  # half of a hundredth of an inch


@pytest.mark.parametrize(
    ("system", "text"),
    [
        (System.METRIC, "80 cm along, 40 cm across, 2.5 cm radius; corners 0 0, 9 0, 9 6 cm"),
        # An inch is 25.4 mm: 800 mm are 31 1/2 in, 400 mm 15 3/4 in, 25 mm 1 in, to 1/16 in.
        (
            System.IMPERIAL,
            "31 1/2 in along, 15 3/4 in across, 1 in radius; corners 0 0, 3.54 0, 3.54 2.36 in",
        ),
    ],
)
def test_shapes_stand_in_the_units_of_the_tape(system: System, text: str) -> None:
    tear = ((0.0, 0.0), (90.0, 0.0), (90.0, 60.0))
    flaws = (Flaw(800, 400, 25), Flaw.cornered(tear, "tear"))
    assert flaws_text(flaws, system) == f"{text}: tear"


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("0 0, 90 0, 90 60, 0 64 cm", (640, 900)),
        ("0 0, 36 0, 36 20 in", (508, 914.4)),
        ('0 0, 36 0, 36 20.5"', (520.7, 914.4)),
        ("0 0, .9 0, .9 .6 m", (600, 900)),
    ],
)
def test_corners_have_one_unit_for_all(text: str, mm: tuple[float, float]) -> None:
    outline = read_outline(text)
    assert (max(y for _, y in outline), max(x for x, _ in outline)) == pytest.approx(mm)


@pytest.mark.parametrize(
    "text", ["0 0, 90 0, 90 60", "", "cm", "0 0, 90 0 cm", "0 0, 90, 9 9 cm", "0 0, -9 0, 9 9 cm"]
)
def test_corners_without_a_unit_or_too_few_are_refused(text: str) -> None:
    with pytest.raises(BadInputError, match=r"0 0, 90 0, 90 60, 0 64 cm"):
        read_outline(text)


@given(st.text(max_size=40))
def test_any_other_text_is_refused_in_words_or_read(text: str) -> None:
    for read in (read_flaws, read_outline):
        with suppress(BadInputError):
            read(text)
