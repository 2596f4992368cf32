"""Columns are known by what people write over them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.intake.headings import (
    column_letters,
    find_headings,
    guess_kind,
    heading_unit,
    match_headings,
)
from stash.intake.sheet import Sheet
from stash.services.sheet_kinds import KINDS

LABELS = {key: kind.labels for key, kind in KINDS.items()}


def fields(*headings: str, kind: str = "cloths", reads: float = 1.0) -> list[str]:
    found = match_headings(headings, kind, LABELS[kind], lambda _, __: reads)
    return [column.field for column in found]


@pytest.mark.parametrize(
    ("headings", "expected"),
    [
        ("Name Width Length Content Weight Notes", "name width length fibres weight notes"),
        ("Stoff Breite Länge Zusammensetzung Gewicht", "name width length fibres weight"),
        ("Tissu Largeur Longueur Composition Poids", "name width length fibres weight"),
        ("Tela Ancho Largo Composición Peso", "name width length fibres weight"),
        ("Tessuto Larghezza Lunghezza Composizione", "name width length fibres"),
        ("Stof Breedte Lengte Samenstelling", "name width length fibres"),
        ("Farbname Preis gewaschen Dehnung Strich", "colour_name price washed stretch_across nap"),
        ("Shop Laden Negozio", "notes notes notes"),
        ("Widht Lenght Fibrecontent", "width length fibres"),
        ("Zorble", ""),
    ],
)
def test_headings_in_makers_words(headings: str, expected: str) -> None:
    assert fields(*headings.split()) == (expected.split() or [""])


def test_a_near_word_counts_only_if_the_cells_agree() -> None:
    assert fields("Sheen", reads=1.0) == ["sheer"]
    assert fields("Sheen", reads=0.0) == [""]


def test_the_labels_and_keys_of_our_own_fields_are_known() -> None:
    for key, kind in KINDS.items():
        for field in kind.fields:
            if field.key not in ("colour", "bought"):
                assert fields(field.label, kind=key) == [field.key], field.label


@pytest.mark.parametrize(
    ("heading", "unit"),
    [
        ("Length (m)", "m"),
        ("Width [cm]", "cm"),
        ("width in inches", "in"),
        ("Yards", "yd"),
        ("Breite cm", "cm"),
        ("Weight (g/m²)", "gsm"),
        ("price/yd", "yd"),
        ("Length", ""),
        ("Composition", ""),
    ],
)
def test_units_in_headings(heading: str, unit: str) -> None:
    assert heading_unit(heading) == unit


def test_a_title_above_the_headings_is_no_heading() -> None:
    sheet = Sheet("f", "", (("My stash", "", ""), ("", "", ""), ("Name", "Width", "Length")))
    assert find_headings(sheet, "cloths", LABELS["cloths"]) == 3


@pytest.mark.parametrize(
    ("headings", "kind"),
    [
        ("Name,Width,Length", "cloths"),
        ("Project,Pattern,Size,For,Due", "makes"),
        ("Size,Cloth width,Amount,View", "chart"),
        ("Date,What happened,Fabric,Garment", "diary"),
        ("Nothing,Known", "cloths"),
    ],
)
def test_the_kind_is_guessed_by_the_headings(headings: str, kind: str) -> None:
    assert guess_kind(Sheet("f", "", (tuple(headings.split(",")),)), LABELS) == kind


def test_columns_without_a_heading_are_named_as_sheets_name_them() -> None:
    assert [column_letters(place) for place in (0, 25, 26, 701, 702)] == [
        "A",
        "Z",
        "AA",
        "ZZ",
        "AAA",
    ]


@given(st.lists(st.text(max_size=30), max_size=8))
def test_any_headings_are_taken_for_something_or_nothing(headings: list[str]) -> None:
    found = match_headings(headings, "cloths", LABELS["cloths"], lambda _, __: 0.0)
    own = [c.field for c in found if c.field not in ("", "notes", "leave")]
    assert len(found) == len(headings)
    assert len(own) == len(set(own))
