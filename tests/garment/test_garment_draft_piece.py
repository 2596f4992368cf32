"""Drafted pieces are honest shapes, and bad measures are told in words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from stash.errors import BadInputError
from stash.garment.draft.doubts import DOUBTS, doubts_of
from stash.garment.draft.edges import Add, Edge, with_allowances
from stash.garment.draft.piece import FAMILIES, doubts_about, draft_piece
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.garment.pattern import Piece

WORN = {
    "bodice front": {
        "bust": (600, 1300),
        "length": (420, 1200),
        "shoulder": (130, 215),
        "armhole": (190, 260),
        "neck_width": (55, 95),
        "neck_depth": (20, 150),
    },
    "trouser front": {
        "hip": (560, 1400),
        "crotch": (180, 330),
        "length": (500, 1150),
        "ankle": (240, 520),
    },
    "sleeve": {
        "length": (180, 660),
        "upper_arm": (180, 420),
        "wrist": (150, 260),
        "cap": (60, 160),
    },
    "skirt panel": {
        "waist": (560, 1100),
        "hip": (800, 1350),
        "length": (350, 1000),
        "sweep": (900, 3000),
    },
    "patch pocket": {"length": (80, 250), "width": (80, 220)},
    "pocket bag": {"length": (150, 350), "width": (100, 220)},
    "yoke": {
        "shoulder": (150, 230),
        "neck_width": (60, 95),
        "neck_depth": (15, 30),
        "height": (50, 130),
    },
    "neck facing": {"neck_width": (60, 110), "neck_depth": (15, 160), "height": (40, 90)},
    "collar": {"neck": (280, 520), "height": (50, 110)},
    "collar stand": {"neck": (280, 520), "height": (25, 45)},
    "trapezoid": {"length": (50, 900), "top": (20, 600), "bottom": (20, 900)},
    "half trapezoid": {"length": (50, 900), "top": (20, 600), "bottom": (20, 900)},
    "rectangle": {"length": (10, 3000), "width": (10, 1500)},
    "band": {"length": (250, 1400), "width": (20, 200)},
    "waistband": {"waist": (560, 1100), "height": (20, 80)},
    "flared skirt": {"waist": (560, 1100), "sweep": (1500, 3600), "length": (350, 1000)},
    "circle sector": {"inner": (150, 400), "outer": (700, 1100), "length": (250, 1000)},
    "cuffed sleeve": {
        "length": (450, 660),
        "cuff": (40, 90),
        "upper_arm": (220, 420),
        "lower": (220, 380),
        "cap": (60, 160),
    },
    "hood": {"height": (300, 400), "depth": (220, 290), "neck": (380, 500)},
    "front facing": {
        "length": (500, 1100),
        "width": (50, 110),
        "neck_width": (60, 95),
        "neck_depth": (60, 150),
    },
}
WORN["bodice back"] = WORN["bodice front"]
WORN["trouser back"] = WORN["trouser front"]


@st.composite
def pieces(draw: st.DrawFn) -> Piece:
    family = draw(st.sampled_from(sorted(WORN)))
    measures = {
        key: Length.from_mm(draw(st.integers(low, high)))
        for key, (low, high) in WORN[family].items()
    }
    return draft_piece(family, family, measures)


def test_every_family_is_tried_here() -> None:
    assert set(WORN) == set(FAMILIES)


@settings(max_examples=150, deadline=None)
@given(pieces())
def test_drafts_of_worn_sizes_are_simple_rings_with_area(piece: Piece) -> None:
    shape = Polygon(piece.outline)
    assert shape.is_valid
    assert shape.area > 0
    assert piece.outline[0] != piece.outline[-1]
    assert min(x for x, _ in piece.outline) == 0
    assert min(y for _, y in piece.outline) == 0
    if piece.on_fold:
        on_the_fold = [x for x, y in piece.outline if y == 0]
        assert len(on_the_fold) >= 2
        assert max(on_the_fold) - min(on_the_fold) > 10


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(WORN)), st.integers(5, 25))
def test_a_wider_seam_never_gives_a_smaller_piece(family: str, seam: int) -> None:
    middle = {k: Length.from_mm((low + high) / 2) for k, (low, high) in WORN[family].items()}
    thin, wide = (
        draft_piece(family, "x", middle | {"seam": Length.from_mm(mm)}).outline
        for mm in (seam, seam + 5)
    )
    assert Polygon(wide).area > Polygon(thin).area


def test_allowances_are_added_to_a_square_as_by_hand() -> None:
    """A 100 mm square with 10 at three sides and 40 at the hem: 120 by 150."""
    square = (
        Edge(((0, 0), (100, 0))),
        Edge(((100, 0), (100, 100)), Add.HEM),
        Edge(((100, 100), (0, 100), (0, 0))),
    )
    for edges in (square, tuple(Edge(e.points[::-1], e.add) for e in square[::-1])):
        ring = with_allowances(edges, {Add.SEAM: 10, Add.HEM: 40})
        assert Polygon(ring).bounds == (-10, -10, 140, 110)
        assert Polygon(ring).area == pytest.approx(150 * 120)


def test_nothing_is_added_at_the_fold_but_a_seam_where_there_is_none() -> None:
    measures = {k: Length.from_mm(sum(v) / 2) for k, v in WORN["bodice front"].items()}
    folded = draft_piece("bodice front", "front", measures)
    halves = draft_piece("bodice front", "front", measures, on_fold=False, copies=2)
    high = [max(y for _, y in piece.outline) for piece in (folded, halves)]
    assert high[1] - high[0] == pytest.approx(15)


@pytest.mark.parametrize(
    ("family", "measures", "told"),
    [
        ("trouser frnt", {}, "no family of pieces called 'trouser frnt'"),
        ("rectangle", {"length": 100}, "needs its width"),
        ("rectangle", {"length": 100, "width": 0}, "width must be more than nothing"),
        ("rectangle", {"length": 100, "width": -5}, "width must be more than nothing"),
        ("rectangle", {"length": 100, "width": 50, "girth": 2}, "no measure called 'girth'"),
        ("rectangle", {"length": 100_000, "width": 50}, "too long to be meant"),
        ("rectangle", {"length": 0.1, "width": 0.1}, "too small to be cut"),
        ("rectangle", {"length": 0.001, "width": 0.001}, "too small to be cut"),
        ("rectangle", {"length": 4, "width": 4}, "too small to be cut"),
        ("rectangle", {"length": 600, "width": 0.02}, "too small to be cut"),
        (
            "bodice front",
            {
                "bust": 900,
                "length": 600,
                "shoulder": 100,
                "armhole": 220,
                "neck_width": 260,
                "neck_depth": 80,
            },
            "do not make a shape",
        ),
    ],
)
def test_bad_measures_are_told_in_one_sentence(
    family: str, measures: dict[str, float], told: str
) -> None:
    with pytest.raises(BadInputError) as caught:
        draft_piece(family, "Bit", {k: Length.from_mm(v) for k, v in measures.items()})
    assert told in caught.value.message
    assert "\n" not in caught.value.message
    assert caught.value.hint


def test_a_folded_piece_cannot_reach_beyond_its_fold() -> None:
    measures = {k: Length.from_mm(sum(v) / 2) for k, v in WORN["bodice front"].items()}
    with pytest.raises(BadInputError, match="nothing beyond its centre"):
        draft_piece("bodice front", "front", measures | {"stand": Length.from_mm(30)})


# A half is cut on a straight centre; these are whole, or one of two mirrored halves with a
# shaped or slanted centre (common practice).
NEVER_ON_FOLD = (
    *("patch pocket", "pocket bag", "trapezoid", "trouser front", "trouser back", "sleeve"),
    *("cuffed sleeve", "hood", "front facing"),
)


@pytest.mark.parametrize("family", sorted(FAMILIES))
@pytest.mark.parametrize("seam", [0, 15])
def test_only_a_straight_centre_lies_on_a_fold(family: str, seam: int) -> None:
    measures = {k: Length.from_mm(sum(v) / 2) for k, v in WORN[family].items()}
    measures["seam"] = Length.from_mm(seam)
    if family not in NEVER_ON_FOLD:
        assert draft_piece(family, "x", measures, on_fold=True).on_fold
        return
    with pytest.raises(BadInputError) as caught:
        draft_piece(family, "x", measures, on_fold=True)
    assert f"a {family} has no straight centre edge to lie on a fold" in caught.value.message
    assert "on_fold" in caught.value.hint


def test_a_narrow_binding_or_cord_may_be_drafted() -> None:
    for wide, on_fold in ((3.0, False), (1.5, True)):
        measures = {"length": Length.from_mm(600), "width": Length.from_mm(wide)}
        assert draft_piece("rectangle", "cord", measures, on_fold=on_fold).outline


def test_no_copies_cannot_be_cut() -> None:
    with pytest.raises(BadInputError, match="0 copies"):
        draft_piece(
            "band",
            "band",
            {"length": Length.from_mm(700), "width": Length.from_mm(60)},
            copies=0,
        )


def test_a_flared_skirt_is_a_sector_of_a_ring() -> None:
    """A full circle skirt of two halves: waist 2 pi r, hem 2 pi (r + length) (geometry).

    Waist 72 cm: r = 11.46 cm; 60 cm long, the hem is 449 cm round. Each quarter beside a fold
    covers pi/4 ((r + 60)^2 - r^2).
    """
    r, long = 720 / (2 * math.pi), 600.0
    hem = 2 * math.pi * (r + long)
    measures = {"waist": 720.0, "sweep": hem, "length": long, "seam": 0.0, "hem": 0.0}
    piece = draft_piece("flared skirt", "x", {k: Length.from_mm(v) for k, v in measures.items()})
    quarter = math.pi / 4 * ((r + long) ** 2 - r**2)
    assert Polygon(piece.outline).area == pytest.approx(quarter, rel=1e-3)
    with pytest.raises(BadInputError, match="closes on itself"):
        draft_piece(
            "circle sector",
            "x",
            {k: Length.from_mm(v) for k, v in {"inner": 720, "outer": hem, "length": 600}.items()},
        )
    with pytest.raises(BadInputError, match="nothing is round"):
        draft_piece(
            "circle sector",
            "x",
            {k: Length.from_mm(v) for k, v in {"inner": 720, "outer": 720, "length": 600}.items()},
        )


@pytest.mark.parametrize(
    ("family", "changed", "asked"),
    # What any dressmaker would ask back (common practice).
    [
        ("skirt panel", {"waist": 1000, "hip": 900}, "waist is wider than the hip"),
        ("skirt panel", {"sweep": 4000}, "three times as wide as the hip"),
        ("skirt panel", {"sweep": 820, "hip": 1000}, "wants a slit"),
        ("trouser front", {"ankle": 1100}, "as wide as hips"),
        ("trouser back", {"ankle": 150}, "foot hardly goes through"),
        ("trouser back", {"ease": 600}, "more than half the hip"),
        ("sleeve", {"wrist": 600}, "wider than the upper arm"),
        ("bodice front", {"sweep": 500}, "narrower than the bust"),
        ("hood", {"depth": 500}, "deeper than it is high"),
        ("waistband", {"height": 300}, "higher than a hand"),
    ],
)
def test_odd_measures_are_asked_about(family: str, changed: dict[str, int], asked: str) -> None:
    usual = {k: Length.from_mm((low + high) / 2) for k, (low, high) in WORN[family].items()}
    assert doubts_about(family, usual) == ()
    odd = usual | {key: Length.from_mm(mm) for key, mm in changed.items()}
    (question,) = [one for one in doubts_about(family, odd) if asked in one]
    assert question.endswith(": is that right?")
    draft_piece(family, "x", odd)


def test_every_doubt_is_of_a_family_and_reads_its_measures() -> None:
    assert set(DOUBTS) <= set(FAMILIES)
    for key, family in FAMILIES.items():
        middle = {k: (low + high) / 2 for k, (low, high) in WORN[key].items()}
        usual = {m.key: m.default.mm for m in family.measures if m.default is not None}
        assert doubts_of(key, usual | middle) == ()
