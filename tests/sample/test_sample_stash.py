"""The sample stash is whole, varied, and of amounts the trade would believe."""

from __future__ import annotations

from functools import cache

import pytest
from shapely.geometry import Polygon

from stash.garment.make import State
from stash.garment.pattern import Kind, Pattern, Piece, Role
from stash.intake.stash_folder import StashFiles, read_stash_folder
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve
from stash.paths import sample_dir


@cache
def _files() -> StashFiles:
    return read_stash_folder(sample_dir())


def _pattern(kind: Kind) -> Pattern:
    return next(pattern for pattern in _files().patterns if pattern.kind is kind)


def _area(pieces: tuple[Piece, ...]) -> float:
    """Square metres of cloth the pieces cover."""
    return sum(Polygon(p.outline).area * p.copies * (2 if p.on_fold else 1) for p in pieces) / 1e6


def test_the_shelf_holds_very_different_cloths() -> None:
    cloths = _files().cloths
    assert len(cloths) >= 40
    assert {cloth.structure.value for cloth in cloths} == {
        "woven",
        "knit",
        "felted",
        "lace",
        "coated",
    }
    assert min(cloth.width.mm for cloth in cloths) < 920
    assert max(cloth.width.mm for cloth in cloths) >= 2700
    assert {cloth.washed for cloth in cloths} == {True, False}
    assert any(cloth.outline for cloth in cloths)
    assert any(cloth.flaws for cloth in cloths)
    assert any(cloth.nap for cloth in cloths)
    knits = [cloth for cloth in cloths if cloth.structure == "knit"]
    assert 2 <= sum(cloth.stretch_across is None for cloth in knits) < len(knits) / 2


def test_every_part_of_a_remnant_and_every_flaw_lies_on_its_cloth() -> None:
    for cloth in _files().cloths:
        usable = cloth.width.mm - 2 * cloth.selvedge.mm
        for x, y in cloth.outline:
            assert x <= cloth.left.mm
            assert y <= usable
        for flaw in cloth.flaws:
            assert flaw.x <= cloth.left.mm
            assert flaw.y <= usable


def test_the_patterns_are_of_ten_kinds_and_most_have_outlines_in_several_sizes() -> None:
    patterns = _files().patterns
    assert len({pattern.kind for pattern in patterns}) == 10
    drawn = [pattern for pattern in patterns if pattern.pieces]
    assert len(drawn) >= 6
    several = [p for p in drawn if len({piece.size for piece in p.pieces}) >= 2]
    assert len(several) >= 6
    assert all(pattern.charts for pattern in patterns if not pattern.pieces)
    for pattern in several:
        assert {p.size for p in pattern.pieces} == {size.label for size in pattern.sizes}


def test_larger_sizes_have_larger_pieces() -> None:
    for pattern in _files().patterns:
        if pattern.pieces and pattern.sizes:
            view = pattern.views[0] if pattern.views else ""
            areas = [_area(pattern.pieces_for(view, size.label)) for size in pattern.sizes]
            assert areas == sorted(areas)
            assert len(set(areas)) == len(areas)


def test_the_makes_stand_in_several_states() -> None:
    makes = [read.make for read in _files().makes]
    assert len(makes) == 14
    assert sum(make.muslin for make in makes) == 2
    assert {State.THOUGHT, State.PROMISED, State.CUT, State.WORN, State.LET_GO} <= {
        make.state for make in makes
    }
    children = {person.name for person in _files().people if person.child_age is not None}
    assert sum(read.person in children for read in _files().makes) == 1


@pytest.mark.parametrize(
    ("kind", "size", "view", "least", "most"),
    # Square metres implied by usual amounts for about size 12 (EU 40) at 150 cm, less
    # the fifth to a third a lay wastes (amounts from memory: trousers 1.3-2.1 m,
    # sweatshirt 1.6, turtleneck 1.4-1.5, shift 1.9-2.2, pinafore 1.5-1.7;
    # long-sleeved shirt 1 5/8 yd at 58-60 in, a published garment chart).
    [
        (Kind.TROUSERS_ELASTIC, "M", "", 1.1, 2.4),
        (Kind.SWEATSHIRT, "M", "", 1.0, 2.0),
        (Kind.TURTLENECK, "M", "", 1.0, 1.8),
        (Kind.DRESS, "40", "B", 1.4, 2.7),
        (Kind.PINAFORE, "M", "", 1.3, 2.1),
        (Kind.SHIRT, "M", "A", 1.4, 2.1),
    ],
)
def test_the_pieces_cover_what_such_garments_do(
    kind: Kind, size: str, view: str, least: float, most: float
) -> None:
    assert least < _area(_pattern(kind).pieces_for(view, size, Role.MAIN)) < most


def _legs(width: float, *, nap: bool) -> float:
    pieces = _pattern(Kind.TROUSERS_ELASTIC).pieces_for("", "M", Role.MAIN)
    shapes = tuple(
        Shape(p.name, p.outline, p.copies, p.on_fold, p.mirrored)
        for p in pieces
        if p.name in ("front", "back")
    )
    return solve(Problem(shapes=shapes, width=width, nap=nap), kind=LayKind.OPEN).need


@pytest.mark.parametrize("nap", [False, True])
def test_four_legs_lie_side_by_side_on_wide_cloth_and_not_on_narrow(nap: bool) -> None:
    """Published garment charts: capris 2 1/8 yd at 50 in and 1 1/2 at 58-60 in; Bermudas 1 7/8
    and 1 1/4: once the four legs no longer lie side by side, at least four tenths more."""
    pieces = _pattern(Kind.TROUSERS_ELASTIC).pieces_for("", "M", Role.MAIN)
    leg = max(x for p in pieces for x, _ in p.outline)
    assert 1050 <= leg <= 1120
    assert _legs(1470, nap=nap) == pytest.approx(leg, abs=1)
    assert _legs(1100, nap=nap) > 1.4 * leg
