"""Which size a person takes, against a small published-style size table worked by hand."""

from __future__ import annotations

import pytest

from stash.garment.make import Person
from stash.garment.pattern import ChartRow, Kind, Pattern, Size
from stash.garment.sizing import middle_size, size_labels, size_of
from stash.units.length import Length


def cm(value: float) -> Length:
    return Length.from_mm(10 * value)


def person(**measures: float) -> Person:
    return Person(name="Wanda", measures=tuple((n, cm(v)) for n, v in measures.items()))


TABLE = Pattern(
    name="Ferryman",
    kind=Kind.SHIRT,
    sizes=tuple(
        Size(label=label, body=(("chest_girth", cm(chest)), ("stature", cm(tall))))
        for label, chest, tall in (("S", 90, 170), ("M", 96, 172), ("L", 104, 174))
    ),
)


@pytest.mark.parametrize(
    ("chest", "size"),
    # Between sizes the larger is cut (common practice); a step below the smallest is too small.
    [(90, "S"), (91, "M"), (96, "M"), (103.5, "L"), (104, "L"), (105, None), (84, "S"), (83, None)],
)
def test_the_smallest_size_that_covers_the_person(chest: float, size: str | None) -> None:
    assert size_of(TABLE, person(chest_girth=chest)) == size


def test_height_chooses_no_size_and_strangers_get_none() -> None:
    assert size_of(TABLE, person(chest_girth=95, stature=190)) == "M"
    assert size_of(TABLE, person(hip_girth=95)) is None
    assert size_of(TABLE, person()) is None


def test_labels_come_from_table_or_chart() -> None:
    assert size_labels(TABLE) == ("S", "M", "L")
    assert middle_size(TABLE) == "M"
    row = ChartRow(size="40", width=cm(140), amount=cm(200))
    assert size_labels(Pattern(name="x", kind=Kind.COAT, charts=(row,))) == ("40",)
    assert size_labels(Pattern(name="x", kind=Kind.COAT)) == ("",)
