"""Where the words and the grain line of a piece go on paper: along it, level or upright."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin
from typing import TYPE_CHECKING

from stash.report.cell_sheet import spans

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.lay.problem import Ring

SIZES = (26.0, 22.0, 19.0, 16.0, 13.0, 11.0, 9.0, 7.5, 6.0)
"""Heights of type in mm, the largest first."""
WIDE = 0.62
"""Width of a letter over its height, on average and a little generous."""
SECOND = 0.7
"""Height of the second line over that of the name."""
BLOCK = 2.2
"""Height of both lines and the room under them, over that of the name."""
WORTH_A_TURN = 1.25
"""How much larger words must become to be worth turning one's head for."""
LONGEST_HALF = 90.0
"""Half a grain line at most, mm."""
ROWS, LEVELS = 24, 5


@dataclass(frozen=True, slots=True)
class Label:
    """Two lines of words and a grain line, in mm on the cloth."""

    name: tuple[float, float]
    """Middle of the baseline of the name."""
    second: tuple[float, float]
    """Middle of the baseline of the line under it."""
    size: float
    """Height of the name's type."""
    small: float
    upright: bool
    """It is read from below upwards: turned by -90 degrees."""
    grain: tuple[float, float]
    """Middle of the grain line."""
    half: float
    """Half its length."""


@dataclass(frozen=True, slots=True)
class _Block:
    """A free place of the frame words are level in: its middle, its room along and across."""

    u: float
    v: float
    room: float
    size: float
    beside: bool
    """The grain line stands beside the words, not under them."""


def label_of(polygon: Ring, words: tuple[str, str], turn: float) -> Label:
    """The largest words that fit into a piece, level unless upright they are clearly larger.

    Args:
        polygon: Where they may stand, mm.
        words: The name, and the line under it.
        turn: Degrees of the grain line.
    """
    level = _block(polygon, words, abs(sin(radians(turn))) > 0.3)
    standing: Ring = tuple((-y, x) for x, y in polygon)
    upright = _block(standing, words, abs(cos(radians(turn))) > 0.3)
    if upright.size >= WORTH_A_TURN * level.size:
        return _label(standing, upright, words, turn, upright=True)
    return _label(polygon, level, words, turn, upright=False)


def _block(frame: Ring, words: tuple[str, str], beside: bool) -> _Block:
    """The place for the largest type; the smallest type stands where there is most room."""
    for size in SIZES:
        wide = _wide(words, size) + (2.4 * size if beside else 0.0)
        high = BLOCK * size + (0.0 if beside else 0.6 * size)
        if (found := _place(frame, wide, high)) is not None:
            return _Block(*found, size, beside)
    low, high = _reach(frame)
    u, v, room = max(
        (
            ((left + right) / 2, level, right - left)
            for level in _between(low, high, ROWS)
            for left, right in spans(frame, level)
        ),
        key=lambda found: found[2],
        default=(frame[0][0], frame[0][1], 0.0),
    )
    return _Block(u, v, room, SIZES[-1], beside)


def _place(frame: Ring, wide: float, high: float) -> tuple[float, float, float] | None:
    """A place for a block as near the middle of the piece as can be: middle, room along it."""
    low, top = _reach(frame)
    middle = (low + top) / 2
    for level in sorted(_between(low, top, ROWS), key=lambda v: abs(v - middle)):
        if level - high / 2 < low or level + high / 2 > top:
            continue
        free = _common(frame, _between(level - high / 2, level + high / 2, LEVELS))
        left, right = max(free, key=lambda span: span[1] - span[0], default=(0.0, 0.0))
        if right - left >= wide:
            return (left + right) / 2, level, right - left
    return None


def _common(frame: Ring, levels: Sequence[float]) -> list[tuple[float, float]]:
    """What is inside at every one of some levels."""
    first, *others = levels
    free = spans(frame, first)
    for level in others:
        free = [
            (max(a, c), min(b, d))
            for a, b in free
            for c, d in spans(frame, level)
            if max(a, c) < min(b, d)
        ]
    return free


def _label(
    frame: Ring, block: _Block, words: tuple[str, str], turn: float, *, upright: bool
) -> Label:
    """Words and grain line put into the block, brought back from its frame onto the cloth."""
    size, u, v = block.size, block.u, block.v
    small = SECOND * size
    if block.beside:
        wide = _wide(words, size)
        at, grain = u - 0.9 * size, (u - 0.9 * size + wide / 2 + 1.2 * size, v)
        name, second = (at, v - 0.1 * size), (at, v + small)
        half = 0.8 * _clear(frame, *grain)
    else:
        name, second, grain = (u, v - 0.3 * size), (u, v - 0.3 * size + 1.15 * small), (u, v + size)
        half = 0.3 * block.room
    half = min(half, LONGEST_HALF)

    def back(point: tuple[float, float]) -> tuple[float, float]:
        return (point[1], -point[0]) if upright else point

    return Label(back(name), back(second), size, small, upright, back(grain), half)


def _wide(words: tuple[str, str], size: float) -> float:
    return WIDE * size * max(len(words[0]), SECOND * len(words[1]), 1)


def _reach(frame: Ring) -> tuple[float, float]:
    return min(v for _, v in frame), max(v for _, v in frame)


def _between(low: float, high: float, steps: int) -> list[float]:
    """Levels from one to the other, a little inside of both."""
    return [low + (high - low) * (step + 0.5) / steps for step in range(steps)]


def _clear(frame: Ring, u: float, v: float) -> float:
    """How far it is across the words from a point to the nearer outline; 0 from outside."""
    turned = tuple((b, a) for a, b in frame)
    return next((min(v - low, high - v) for low, high in spans(turned, u) if low <= v <= high), 0.0)
