"""What all lays of two layers share: what lies doubled, what is cut single, and what is waste.

What is cut once has no second layer to share. Two ways are tried: it lies in an opened-out
stretch after the two layers end, or it is cut double and its twin is waste. Shorter wins.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from stash.lay.errors import LayError
from stash.lay.forms import half_gap, padded, sheet_width
from stash.lay.obstacles import strip_from
from stash.lay.open_lay import polygon_mm
from stash.lay.problem import LayKind
from stash.lay.result import Placement
from stash.lay.search import search
from stash.lay.table import Item, Placed, length_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from stash.lay.effort import Effort
    from stash.lay.problem import Problem, Ring
    from stash.lay.table import Strip


class Layers(NamedTuple):
    """Two layers, opened out; lengths in solver units, lines in mm."""

    end: int
    """Where the last piece on them ends."""
    reach: int
    """Where the cloth is single again."""
    placements: tuple[Placement, ...]
    folds: tuple[float, ...]
    cross_fold: float | None


class Folded(NamedTuple):
    """A whole lay of two layers: what lies doubled, then what is cut single, opened out."""

    kind: LayKind
    length: int
    """Length of cloth used, solver units."""
    folded_to: int
    """Where the cloth is single again, solver units; 0 if nothing lies doubled."""
    placements: tuple[Placement, ...]
    folds: tuple[float, ...]
    cross_fold: float | None


class Sorted(NamedTuple):
    """What lies doubled, a pair each; and what is cut from a single layer."""

    doubled: tuple[Item, ...]
    singles: tuple[Item, ...]
    can_waste: bool = True
    """Every single may be cut double instead."""


class NoneShorterError(LayError):
    """There is a lay already that none of this kind can beat."""

    def __init__(self) -> None:
        super().__init__("No lay of this kind is shorter.", "Take the lay there is.")


class SingleEnd:
    """The opened-out stretch at the end, worked out once for all kinds that need it."""

    def __init__(self, problem: Problem, effort: Effort) -> None:
        self._problem = problem
        self._effort = effort
        self._known: dict[tuple[Strip, tuple[Item, ...]], tuple[Placed, ...] | None] = {}

    def lay(self, singles: tuple[Item, ...], start: int) -> tuple[Placed, ...]:
        """The singles on the whole width of a stretch that begins at `start`."""
        strip = strip_from(self._problem, start)
        key = (strip, singles)
        if key not in self._known:
            self._known[key] = search(strip, singles, self._effort).row
        row = self._known[key]
        if row is None:
            raise LayError("The pieces cut once find no room.", "Lay this cloth open.")
        return row


def shortest(
    problem: Problem,
    kind: LayKind,
    parts: Sorted,
    lay_double: Callable[[tuple[Item, ...]], Layers],
    single_end: SingleEnd,
    beat: int | None,
) -> Folded:
    """The shorter of the two ways; `lay_double` puts items on two layers.

    Raises:
        NoneShorterError: it is proven to be no shorter than `beat`.
        LayError: what must lie doubled cannot.
    """
    if beat is not None and _least(problem, kind, parts) >= beat:
        raise NoneShorterError
    way = _with_open_end(problem, kind, parts, lay_double, single_end)
    # Where nothing lies doubled there is nothing to gain: each wasted twin could be left
    # out and the other layer alone would be a single one just as long.
    if not (parts.doubled and parts.singles and parts.can_waste):
        return way
    everything = parts.doubled + parts.singles
    if 2 * sum(item.forms[0].area for item in everything) >= way.length * sheet_width(problem):
        return way
    try:
        layers = lay_double(everything)
    except LayError:
        return way
    if layers.end >= way.length:
        return way
    wasted = frozenset(item.forms[0].shape for item in parts.singles)
    placements = numbered(layers.placements, wasted, problem)
    return Folded(kind, layers.end, layers.end, placements, layers.folds, layers.cross_fold)


def _least(problem: Problem, kind: LayKind, parts: Sorted) -> int:
    """A length no lay of the kind can beat, solver units.

    What lies doubled ends no sooner than its longest piece, its area over the half of the
    cloth it lies on, or the pieces at one fold laid end to end (a gate lay has two folds: at
    one of them lies half). Crossways that is how far it lies from the fold, on either side.
    What is cut once comes after it, or is cut double too.
    """
    width = sheet_width(problem)
    apart = _stretch(kind, parts.doubled, width) + _stretch(None, parts.singles, width)
    if not (parts.doubled and parts.singles and parts.can_waste):
        return apart
    return min(apart, _stretch(kind, parts.doubled + parts.singles, width))


def _stretch(kind: LayKind | None, items: tuple[Item, ...], width: int) -> int:
    """The least room items take along the cloth, on two layers unless `kind` is None."""
    lengths = [min(form.length for form in item.forms) for item in items]
    area = int(sum(item.forms[0].area for item in items) / width)
    longest = max(lengths, default=0)
    if kind is None:
        return max(longest, area)
    if kind is LayKind.CROSSWAYS:
        return 2 * max(longest, area)
    folds = 2 if kind is LayKind.GATE else 1
    at_fold = sum(length for item, length in zip(items, lengths, strict=True) if item.at_fold)
    return max(longest, 2 * area, -(-at_fold // folds))


def _with_open_end(
    problem: Problem,
    kind: LayKind,
    parts: Sorted,
    lay_double: Callable[[tuple[Item, ...]], Layers],
    single_end: SingleEnd,
) -> Folded:
    layers = lay_double(parts.doubled)
    if not parts.singles:
        placements = numbered(layers.placements, frozenset(), problem)
        return Folded(kind, layers.end, layers.end, placements, layers.folds, layers.cross_fold)
    start = layers.reach + (2 * half_gap(problem) if parts.doubled else 0)
    row = single_end.lay(parts.singles, start)
    singles = tuple(
        placement_of(problem, p, polygon_mm(p, start), p.form.turn, p.form.mirrored, single=True)
        for p in row
    )
    return Folded(
        kind,
        start + length_of(row),
        layers.reach,
        numbered(layers.placements + singles, frozenset(), problem),
        layers.folds,
        layers.cross_fold,
    )


def spaced(items: tuple[Item, ...], before: int = 0, below: int = 0, above: int = 0) -> list[Item]:
    """The items with room kept around their forms; none `below` one that lies on the fold."""
    return [
        item._replace(
            forms=tuple(padded(f, before, 0 if item.at_fold else below, above) for f in item.forms)
        )
        for item in items
    ]


def placement_of(
    problem: Problem,
    placed: Placed,
    polygon: Ring,
    turn: int,
    mirrored: bool,
    single: bool = False,
) -> Placement:
    """A copy whose number is still to be given."""
    shape = problem.shapes[placed.form.shape]
    return Placement(
        shape=placed.form.shape,
        name=shape.name,
        copy=0,
        polygon=polygon,
        turn=turn % 360,
        mirrored=mirrored,
        on_fold=shape.on_fold,
        single=single,
    )


def numbered(
    placements: tuple[Placement, ...], wasted: frozenset[int], problem: Problem
) -> tuple[Placement, ...]:
    """Copies numbered from 1, plain before mirrored; beyond the count wanted they are waste."""
    out = []
    numbers: dict[int, int] = {}
    for p in sorted(placements, key=lambda p: (p.shape, p.mirrored, p.polygon[0])):
        numbers[p.shape] = numbers.get(p.shape, 0) + 1
        spare = p.shape in wasted and numbers[p.shape] > problem.shapes[p.shape].copies
        out.append(replace(p, copy=numbers[p.shape], waste=spare))
    return tuple(out)
