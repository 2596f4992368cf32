"""Drafting a piece: a family, its measures, and how it is cut."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.draft import arcs, bodice, simple, skirt, sleeve, trousers
from stash.garment.draft.doubts import doubts_of
from stash.garment.draft.edges import (
    Add,
    Ring,
    crosses_itself,
    seam_line,
    signed_area,
    with_allowances,
)
from stash.garment.pattern import Grain, Piece, Role

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.garment.draft.edges import Edge
    from stash.garment.draft.family import Family
    from stash.units.length import Length

FAMILIES: dict[str, Family] = {
    family.key: family
    for module in (simple, trousers, skirt, arcs, bodice, sleeve)
    for family in module.FAMILIES
}
"""Every family by its key, plain shapes first."""

LONGEST_MM = 20_000.0
"""No piece of clothing is longer; a larger number is a slip of the unit."""
SHORTEST_MM, NARROWEST_MM = 5.0, 3.0
"""No piece is shorter, and the finest cord is cut no narrower (common practice)."""


def find_family(key: str) -> Family:
    """The family called `key`. Raises BadInputError naming near ones."""
    wanted = " ".join(key.lower().split())
    if wanted in FAMILIES:
        return FAMILIES[wanted]
    near = difflib.get_close_matches(wanted, FAMILIES, n=3, cutoff=0.5) or list(FAMILIES)
    raise BadInputError(f"There is no family of pieces called '{key}'.", f"Try: {', '.join(near)}.")


def draft_piece(
    family: str,
    name: str,
    measures: Mapping[str, Length],
    *,
    copies: int | None = None,
    on_fold: bool | None = None,
    mirrored: bool | None = None,
    grain: Grain | None = None,
    role: Role = Role.MAIN,
    size: str = "",
    views: tuple[str, ...] = (),
    tolerance: int = 0,
    match: tuple[float, float] | None = None,
    typed: tuple[str, ...] = (),
) -> Piece:
    """A piece of `family` drafted from `measures` (by their keys), allowances added.

    What is left out is cut as the family usually is; `typed` is kept with it, so that it can
    be drafted again. Raises BadInputError when a measure is missing, unknown, not above zero,
    or the measures do not make a shape.
    """
    shape = find_family(family)
    folded = shape.on_fold if on_fold is None else on_fold
    number = shape.copies if copies is None else copies
    if number < 1:
        raise BadInputError(f"{name}: {number} copies cannot be cut.", "Say 1 or more.")
    mm = _millimetres(shape, name, measures)
    edges = shape.outline(mm)
    if folded:
        _refuse_no_half(shape, name, mm, edges)
    line = seam_line(edges)
    if len(line) < 3:
        raise _too_small(name)
    if crosses_itself(line):
        raise _no_shape(name)
    ring = with_allowances(edges, shape.allowances(mm, folded))
    return Piece(
        name=name,
        outline=_placed(ring, name, on_fold=folded),
        copies=number,
        on_fold=folded,
        mirrored=shape.mirrored if mirrored is None else mirrored,
        grain=shape.grain if grain is None else grain,
        role=role,
        size=size,
        views=views,
        tolerance=tolerance,
        match=match,
        seam=mm["seam"] or None,
        family=shape.key,
        typed=typed,
    )


def doubts_about(family: str, measures: Mapping[str, Length]) -> tuple[str, ...]:
    """Questions about measures that make a shape but hardly a garment (see `doubts`)."""
    shape = find_family(family)
    return doubts_of(shape.key, _millimetres(shape, shape.key, measures))


def _millimetres(shape: Family, name: str, given: Mapping[str, Length]) -> dict[str, float]:
    known = {measure.key for measure in shape.measures}
    for key in given:
        if key not in known:
            raise BadInputError(
                f"{name}: a {shape.key} has no measure called '{key}'.",
                f"It takes: {', '.join(m.key for m in shape.measures)}.",
            )
    mm: dict[str, float] = {}
    for measure in shape.measures:
        length = given.get(measure.key, measure.default)
        if length is None:
            if measure.required:
                raise BadInputError(
                    f"{name}: a {shape.key} needs its {measure.key}.", f"Give the {measure.help}."
                )
            continue
        if length.nm < 0 or (length.nm == 0 and not measure.may_be_zero):
            raise BadInputError(
                f"{name}: the {measure.key} must be more than nothing.", f"Give the {measure.help}."
            )
        if length.mm > LONGEST_MM:
            raise BadInputError(
                f"{name}: a {measure.key} of {length.mm / 1000:g} m is too long to be meant.",
                "Check the unit.",
            )
        mm[measure.key] = length.mm
    return mm


def _refuse_no_half(
    shape: Family, name: str, mm: Mapping[str, float], edges: tuple[Edge, ...]
) -> None:
    """A piece on the fold is half of one, up to its straight centre."""
    if mm.get("stand"):
        raise BadInputError(
            f"{name}: a piece on the fold has nothing beyond its centre.",
            "Leave the stand out, or cut it as two halves.",
        )
    if all(edge.add is not Add.CENTRE for edge in edges):
        raise BadInputError(
            f"{name}: a {shape.key} has no straight centre edge to lie on a fold.",
            "Leave out on_fold, or say on_fold=no.",
        )


def _placed(ring: Ring, name: str, *, on_fold: bool) -> Ring:
    """The ring moved to start at 0, rounded to 1/1000 mm, or an error if it is no shape."""
    if len(ring) < 3:
        raise _no_shape(name)
    left = min(x for x, _ in ring)
    low = 0.0 if on_fold else min(y for _, y in ring)
    placed = tuple((round(x - left, 3) + 0.0, round(y - low, 3) + 0.0) for x, y in ring)
    # Of a half opened out the width is twice as much.
    wide = max(y for _, y in placed) * (2 if on_fold else 1)
    sides = sorted((max(x for x, _ in placed), wide))
    if sides[0] < NARROWEST_MM or sides[1] < SHORTEST_MM:
        raise _too_small(name)
    if signed_area(placed) <= 1 or crosses_itself(placed) or min(y for _, y in placed) < 0:
        raise _no_shape(name)
    return placed


def _too_small(name: str) -> BadInputError:
    return BadInputError(
        f"{name}: these measures make a piece too small to be cut.",
        f"Check the units: a piece is {SHORTEST_MM:g} mm long and {NARROWEST_MM:g} mm wide at "
        "least.",
    )


def _no_shape(name: str) -> BadInputError:
    return BadInputError(
        f"{name}: these measures do not make a shape; its edges cross.",
        "Compare the measures with each other: a neck wider than the shoulder, say.",
    )
