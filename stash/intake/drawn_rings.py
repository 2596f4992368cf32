"""Closed outlines out of lines drawn in parts: ends that nearly meet are joined."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.intake.drawn import Means, Stroke

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from stash.intake.drawn import Point

SAME_MM = 0.05
"""Points nearer than this are one point."""
WIDEST_GAP_MM = 2.0
"""Ends this near are joined, and said so."""
SHORTEST_LOOP_MM = 20.0
_CROWD = 40
"""Ends that meet in one place; more are no outline."""


@dataclass(frozen=True, slots=True)
class Joined:
    """A line put together, closed or not."""

    stroke: Stroke
    gap: float = 0.0
    """The widest gap that was closed, in mm."""


def join_strokes(strokes: Iterable[Stroke]) -> list[Joined]:
    """The strokes with those joined whose ends meet, layer by layer, in their first order."""
    done: list[tuple[int, Joined]] = []
    open_ones: dict[tuple[object, ...], list[tuple[int, Stroke]]] = defaultdict(list)
    for number, stroke in enumerate(strokes):
        if stroke.closed or stroke.means in (Means.GRAIN, Means.FOLD, Means.NOTCH, Means.INSIDE):
            done.append((number, Joined(stroke)))
        elif loop := _closed(stroke):
            done.append((number, loop))
        else:
            key = (stroke.layers, stroke.owner, stroke.means)
            open_ones[key].append((number, stroke))
    for group in open_ones.values():
        done += _chained(group)
    return [joined for _, joined in sorted(done, key=lambda pair: pair[0])]


def _closed(stroke: Stroke, gap: float = 0.0) -> Joined | None:
    """A line whose own ends meet, as a ring."""
    apart = math.dist(stroke.points[0], stroke.points[-1])
    if apart > WIDEST_GAP_MM or len(stroke.points) < 3 or length(stroke) < SHORTEST_LOOP_MM:
        return None
    points = stroke.points[:-1] if apart <= SAME_MM else stroke.points
    wide = max(gap, apart)
    return Joined(replace(stroke, points=points, closed=True), wide if wide > SAME_MM else 0.0)


def length(stroke: Stroke) -> float:
    """How long a stroke is, in mm."""
    return sum(math.dist(a, b) for a, b in zip(stroke.points, stroke.points[1:], strict=False))


def _chained(group: list[tuple[int, Stroke]]) -> Iterator[tuple[int, Joined]]:
    """The strokes of one layer, end to end."""
    ends = [(place, which) for place in range(len(group)) for which in (0, -1)]
    partner: dict[tuple[int, int], tuple[int, int]] = {}
    for _, one, other in sorted(_near(group, ends)):
        if one not in partner and other not in partner:
            partner[one], partner[other] = other, one
    left = set(range(len(group)))
    # Chains that end somewhere first, from their ends; what remains are rings.
    starts = [end for end in ends if end not in partner] + ends
    for place, which in starts:
        if place in left:
            yield _walked(group, partner, (place, which), left)


def _near(
    group: list[tuple[int, Stroke]], ends: list[tuple[int, int]]
) -> Iterator[tuple[float, tuple[int, int], tuple[int, int]]]:
    """Pairs of ends of different strokes that nearly meet, with how far they are apart."""
    cells: dict[tuple[int, int], list[tuple[int, int]]] = defaultdict(list)
    for end in ends:
        cells[_cell(_point(group, end))].append(end)
    for (column, row), members in cells.items():
        around = [
            end
            for dx in (-1, 0, 1)
            for dy in (-1, 0, 1)
            for end in cells.get((column + dx, row + dy), ())
        ]
        if len(around) > _CROWD:
            continue
        for one in members:
            for other in around:
                if one < other and one[0] != other[0]:
                    apart = math.dist(_point(group, one), _point(group, other))
                    if apart <= WIDEST_GAP_MM:
                        yield apart, one, other


def _cell(point: Point) -> tuple[int, int]:
    return math.floor(point[0] / WIDEST_GAP_MM), math.floor(point[1] / WIDEST_GAP_MM)


def _point(group: list[tuple[int, Stroke]], end: tuple[int, int]) -> Point:
    return group[end[0]][1].points[end[1]]


def _walked(
    group: list[tuple[int, Stroke]],
    partner: dict[tuple[int, int], tuple[int, int]],
    start: tuple[int, int],
    left: set[int],
) -> tuple[int, Joined]:
    """One chain from one of its ends, or once round."""
    points: list[Point] = []
    gap, number = 0.0, group[start[0]][0]
    label, titled = "", False
    at: tuple[int, int] | None = start
    while at is not None and at[0] in left:
        place, which = at
        left.discard(place)
        stroke = group[place][1]
        number = min(number, group[place][0])
        if not label or (stroke.titled and not titled):
            label, titled = stroke.label, stroke.titled
        part = stroke.points if which == 0 else stroke.points[::-1]
        if points:
            apart = math.dist(points[-1], part[0])
            gap = max(gap, apart if apart > SAME_MM else 0.0)
            part = part[1:] if apart <= SAME_MM else part
        points += part
        at = partner.get((place, -1 if which == 0 else 0))
    first = group[start[0]][1]
    whole = replace(first, points=tuple(points), label=label, titled=titled)
    return number, _closed(whole, gap) or Joined(whole, gap)
