"""Random problems of every sort the estimator knows, from a seeded `random.Random`."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.lay.problem import LayKind, Problem, Repeat, Shape, Spot

if TYPE_CHECKING:
    from random import Random

    from stash.lay.problem import Ring

KINDS = (None, *LayKind)
"""What may be asked for; None is the best of all."""
TURNS = (
    (0, 180),
    (0, 180),
    (0, 180),
    (0,),
    (90, 270),
    (0, 90, 180, 270),
    (45, 135, 225, 315),
)
"""Along the grain mostly; one way only; across; either; on the bias."""


def random_problem(chance: Random) -> Problem:
    """One to five shapes on a cloth, with whatever else a cloth may ask for."""
    shapes = tuple(_shape(chance, number) for number in range(1, chance.randint(1, 5) + 1))
    width = float(chance.randint(500, 1600))
    outline: Ring = ()
    if chance.random() < 0.15:
        width = float(chance.randint(900, 1600))
        outline = _remnant(chance, width)
    elif chance.random() < 0.1:  # exactly as wide as a piece, or as a pair side by side
        ys = [y for _, y in chance.choice(shapes).outline]
        width = max(300.0, (max(ys) - min(ys)) * chance.choice((1, 2)))
    return Problem(
        shapes,
        width,
        nap=chance.random() < 0.35,
        spots=tuple(_spot(chance, width) for _ in range(chance.choice((0, 0, 0, 1, 2, 4)))),
        patches=tuple(_patch(chance, width) for _ in range(chance.choice((0, 0, 0, 0, 1, 2)))),
        outline=outline,
        gap=chance.choice((0.0, 0.0, 0.0, 0.5, 3.0, 12.5)),
        repeat=_repeat(chance) if chance.random() < 0.3 else None,
    )


def _patch(chance: Random, width: float) -> Ring:
    """A flaw with corners: a scrap of a ring somewhere on the cloth."""
    x, y = chance.uniform(0, 1200), chance.uniform(0, width)
    scale = chance.uniform(0.05, 0.3)
    return tuple((x + scale * u, y + scale * v) for u, v in chance.choice((_star, _hook))(chance))


def _repeat(chance: Random) -> Repeat:
    across = chance.choice((0.0, 0.0, 30.0, 64.0, 125.5))
    return Repeat(
        along=chance.choice((12.0, 64.0, 107.3, 320.0)),
        across=across,
        half_drop=bool(across) and chance.random() < 0.5,
        at=chance.choice((None, None, None, 0.0, 17.5)),
    )


def _spot(chance: Random, width: float) -> Spot:
    return Spot(chance.uniform(-20, 1200), chance.uniform(0, width), chance.uniform(1, 60))


def _shape(chance: Random, number: int) -> Shape:
    tolerance = chance.choice((0, 0, 0, 0, 0, 0, 2, 5))
    if chance.random() < 0.3:
        half = _half(chance)
        return Shape(
            f"half {number}",
            half,
            chance.choice((1, 1, 2)),
            on_fold=True,
            turns=chance.choice(TURNS),
            tolerance=tolerance,
            match=_match(chance, half),
        )
    ring = chance.choice((_star, _star, _box, _leg, _sleeve, _hook))(chance)
    return Shape(
        f"piece {number}",
        ring,
        copies=chance.choice((1, 1, 2, 2, 2, 3, 4)),
        mirrored=chance.random() < 0.75,
        turns=chance.choice(TURNS),
        tolerance=tolerance,
        match=_match(chance, ring),
    )


def _match(chance: Random, ring: Ring) -> tuple[float, float] | None:
    """Half of all pieces have a match point: the middle of an edge."""
    if chance.random() < 0.5:
        return None
    place = chance.randrange(len(ring))
    (x0, y0), (x1, y1) = ring[place - 1], ring[place]
    return (x0 + x1) / 2, (y0 + y1) / 2


def _star(chance: Random) -> Ring:
    """A ring around its middle, often with hollows."""
    count = chance.randint(3, 12)
    step = math.tau / count
    radii = [chance.uniform(20, 300) for _ in range(count)]
    return tuple(
        (round(r * math.cos(i * step), 1), round(r * math.sin(i * step), 1))
        for i, r in enumerate(radii)
    )


def _box(chance: Random) -> Ring:
    length, across = chance.randint(30, 900), chance.randint(20, 400)
    return ((0, 0), (length, 0), (length, across), (0, across))


def _leg(chance: Random) -> Ring:
    """Four corners, slanting sides."""
    length = chance.uniform(200, 1100)
    foot, seat = chance.uniform(60, 250), chance.uniform(120, 400)
    lean = chance.uniform(-60, 60)
    return ((0.0, 0.0), (length, lean), (length, lean + foot), (0.0, seat))


def _sleeve(chance: Random) -> Ring:
    """A straight hem and a drawn curve of many points, outward or inward."""
    across, length = chance.uniform(150, 500), chance.uniform(100, 500)
    rise = chance.uniform(-0.6, 0.8) * length
    count = chance.randint(8, 40)
    curve = [
        (length + rise * math.sin(k / count * math.pi), across * k / count)
        for k in range(count + 1)
    ]
    return ((0.0, 0.0), *curve, (0.0, across))


def _hook(chance: Random) -> Ring:
    """An L or a U: room for others in its hollow."""
    length, across = chance.randint(120, 600), chance.randint(120, 400)
    thick = chance.randint(20, 55)
    ring = [(0, 0), (length, 0), (length, thick), (thick, thick), (thick, across), (0, across)]
    if chance.random() < 0.5:
        ring[4:] = [
            (thick, across - thick),
            (length, across - thick),
            (length, across),
            (0, across),
        ]
    return tuple((float(x), float(y)) for x, y in ring)


def _half(chance: Random) -> Ring:
    """A half with its fold edge on y = 0."""
    length = chance.uniform(80, 700)
    heights = [chance.uniform(30, 280) for _ in range(chance.randint(2, 7))]
    step = length / (len(heights) - 1)
    top = [(length - i * step, height) for i, height in enumerate(heights)]
    return ((0.0, 0.0), (length, 0.0), *top)


def _remnant(chance: Random, width: float) -> Ring:
    """What is left of a cloth: cut askew, with a corner or a bite taken out of it."""
    length = chance.uniform(800, 2500)
    askew = length - chance.uniform(0, 300)
    sort = chance.randint(0, 2)
    if sort == 0:
        return ((0.0, 0.0), (length, 0.0), (askew, width), (chance.uniform(0, 80), width))
    x, y = chance.uniform(0.3, 0.7) * length, chance.uniform(0.3, 0.7) * width
    if sort == 1:
        return ((0.0, 0.0), (length, 0.0), (length, y), (x, y), (x, width), (0.0, width))
    bite = ((x + 120, 0.0), (x + 60, y / 2), (x, 0.0))
    return ((0.0, 0.0), *reversed(bite), (length, 0.0), (askew, width), (0.0, width))
