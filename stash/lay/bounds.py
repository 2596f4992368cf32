"""Lengths no legal lay can beat, each with its proof."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from stash.lay.forms import FINE, Form
from stash.lay.result import Bound

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from stash.geometry.ring import IntRing

STEPS = 64


def bound_of(forms: tuple[tuple[Form, ...], ...], width: int) -> Bound:
    """The best of three bounds for an open single layer.

    `forms` holds, for every copy, the forms it may take; `width` is in solver units. A
    folded or any other lay opens out into an open one, so the bound holds for those too.
    """
    area = sum(copy[0].area for copy in forms) / width
    longest = max(min(f.length for f in copy) for copy in forms)
    across = _side_by_side(forms, width, longest)
    bounds = [
        Bound(area / FINE, "the area of the pieces over the width of the cloth"),
        Bound(longest / FINE, "the longest piece"),
        Bound(across / FINE, "pieces too wide to lie side by side"),
    ]
    return max(bounds, key=lambda bound: bound.length)


def least_length(bound: Bound) -> int:
    """The bound in whole solver units, rounded up: at that length nothing more need be tried."""
    return math.ceil(bound.length * FINE - 0.01)


def _side_by_side(forms: tuple[tuple[Form, ...], ...], width: int, longest: int) -> int:
    """The largest length H shown impossible because long pieces must share one line.

    Take the line x = H/2. A piece of length l > H/2 that lies within 0 <= x <= H starts
    between 0 and H - l, so the line cuts it between l - H/2 and H/2 from its start: at
    least the smallest chord there. If these chords add up to more than the width, no lay
    of length H exists, and none shorter either, since a shorter lay also has length H.
    """
    best = 0
    for step in range(1, STEPS + 1):
        length = longest + longest * step // STEPS
        # One unit short of the whole: at H = 2l exactly, two rows of length l do fit.
        if sum(_least_chord(copy, length - 1) for copy in forms) <= width:
            break
        best = length - 1
    return best + 1 if best else 0


def _least_chord(copy: tuple[Form, ...], length: int) -> float:
    """The least any form of this copy takes of the line in the middle of `length`."""
    least: float | None = None
    # Half a turn takes the line just as far on the other side of the middle.
    for form in {(form.mirrored, form.turn % 180): form for form in copy}.values():
        if form.length > length:
            continue  # it does not lie within this length at all
        low, high = 2 * form.length - length, length  # doubled, so that halves stay whole
        chord = _thinnest(form.outline, low / 2, high / 2) if low > 0 else 0.0
        least = chord if least is None else min(least, chord)
    return least or 0.0


@lru_cache(maxsize=4096)
def _thinnest(ring: IntRing, low: float, high: float) -> float:
    """Smallest length of a line x = u inside the ring, for low <= u <= high.

    Between neighbouring points the length is linear in u, so its least value stands at a
    point of the ring or at an end; at a point both sides are looked at.
    """
    ends = np.array(ring, dtype=np.float64)
    starts = np.roll(ends, 1, axis=0)
    left, right = np.minimum(starts[:, 0], ends[:, 0]), np.maximum(starts[:, 0], ends[:, 0])
    near = (left <= high + 1) & (right >= low - 1)
    starts, ends = starts[near], ends[near]
    places = np.concatenate(([low, high], ends[:, 0] - 0.5, ends[:, 0] + 0.5))
    places = places[(low <= places) & (places <= high)]
    return float(_chords(starts, ends, places).min())


def _chords(
    starts: NDArray[np.float64], ends: NDArray[np.float64], places: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Lengths of the lines x = u, for each u of `places`, inside an anticlockwise ring.

    `starts` and `ends` (edges, 2) are those of its edges near the lines. Edges below the inside
    lead to the right, those above it to the left.
    """
    (x0, y0), (x1, y1), u = starts.T, ends.T, places[:, None]
    crossing = (x0 < u) != (x1 < u)
    along = np.where(x1 == x0, 1.0, x1 - x0)
    return np.asarray((crossing * np.sign(x0 - x1) * (y0 + (u - x0) * (y1 - y0) / along)).sum(1))
