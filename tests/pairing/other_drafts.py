"""Trousers drafted by other rules than the program's own, as a truth for its estimates.

Widths and forks by four published drafts; everything else is drawn here with straight lines, and
shares no code with the drafting families.
"""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from stash.garment.pattern import Grain, Kind, Pattern, Piece, Size
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    Widths = Callable[[float], tuple[float, float, float, float]]

SEAM, HEM = 15.0, 40.0

DRAFTS: dict[str, Widths] = {
    # Aldrich, *Metric Pattern Cutting for Women's Wear*, trouser block (from memory).
    "hip/16": lambda hip: (hip / 4 + 5, hip / 16 + 5, hip / 4 + 15, 1.5 * (hip / 16 + 5) + 5),
    # Wikibooks, *Dressmaking/Pants*: fork parts of seat/12, front seat/4.
    "seat/12": lambda hip: (hip / 4 + 13, hip / 16, hip / 4 + 25, hip / 9),
    # Simple block of web tutorials: 15 % and 45 % of a quarter of the hip.
    "15 and 45 %": lambda hip: (hip / 4 + 10, 0.0375 * hip, hip / 4 + 10, 0.1125 * hip),
    # Armstrong, *Patternmaking for Fashion Design*, slack: a quarter and a half of front and
    # back hip, each less 3/4 in (from memory).
    "quarter and half": lambda hip: (
        hip / 4 + 6,
        (hip / 4 + 6) / 4 - 19,
        hip / 4 + 12,
        (hip / 4 + 12) / 2 - 19,
    ),
}
"""From the hip, mm: width and fork of the front, width and fork of the back."""
HIPS = (920.0, 1000.0, 1120.0)
HEMS = (340.0, 440.0, 580.0)
"""Round one leg: tapered, straight, wide."""
LENGTHS = (980.0, 1020.0, 1050.0)


def other_trousers() -> Iterator[Pattern]:
    """A dozen trousers: every draft in three sizes, with other hems, lengths and tops."""
    for number, (draft, hip) in enumerate(product(DRAFTS, HIPS)):
        tailored = number % 2 == 0
        hem, length = HEMS[(number + number // 3) % 3], LENGTHS[number % 3]
        label = f"{hip / 10:.0f}"
        body = (
            ("waist girth", Length.from_mm(hip - 240)),
            ("hip girth", Length.from_mm(hip)),
        )
        yield Pattern(
            id=100 + number,
            name=f"{draft}, hem {hem / 10:.0f}, length {length / 10:.0f}",
            kind=Kind.TROUSERS_TAILORED if tailored else Kind.TROUSERS_ELASTIC,
            sizes=(Size(label=label, body=body),),
            pieces=_pieces(DRAFTS[draft](hip), hip, hem, length, tailored=tailored),
        )


def _pieces(
    widths: tuple[float, float, float, float],
    hip: float,
    hem: float,
    length: float,
    *,
    tailored: bool,
) -> tuple[Piece, ...]:
    front, front_fork, back, back_fork = widths
    rise = 0.15 * hip + 160
    top = 0.8 if tailored else 0.95
    legs = (
        Piece(name="front", copies=2, outline=_leg(front, front_fork, top, hem - 20, length, rise)),
        Piece(
            name="back",
            copies=2,
            outline=_leg(back, back_fork, top, hem + 20, length, rise, raised=25),
        ),
    )
    if not tailored:
        return legs
    return (
        *legs,
        _rectangle("waistband", 0.76 * hip + 80, 100, 1, Grain.EITHER),
        _rectangle("pocket", 300, 170, 2, Grain.LENGTHWISE),
    )


def _rectangle(name: str, long: float, wide: float, copies: int, grain: Grain) -> Piece:
    outline = ((0.0, 0.0), (long, 0.0), (long, wide), (0.0, wide))
    return Piece(name=name, outline=outline, copies=copies, grain=grain, mirrored=False)


def _leg(
    width: float,
    fork: float,
    top: float,
    hem: float,
    length: float,
    rise: float,
    *,
    raised: float = 0,
) -> tuple[tuple[float, float], ...]:
    """One leg with its allowances, the side seam near y = 0; `hem` is twice the panel's own."""
    whole, shaped = width + fork, (1 - top) * width
    crease, half = whole / 2, hem / 4
    knee_at = rise + 0.45 * (length - rise)
    knee = half + 0.15 * (crease - half)
    points = (
        (-SEAM, 0.35 * shaped - SEAM),
        (0.6 * rise, -SEAM),
        (rise, 2 - SEAM),
        (knee_at, crease - knee - SEAM),
        (length + HEM, crease - half - SEAM),
        (length + HEM, crease + half + SEAM),
        (knee_at, crease + knee + SEAM),
        (rise + 60, whole - 0.25 * fork + SEAM),
        (rise, whole + SEAM),
        (rise - 15, whole + 0.5 * SEAM),
        (rise - 8 - 0.15 * fork, width + 0.45 * fork + SEAM),
        (0.75 * rise, width + 0.08 * fork + SEAM),
        (0.45 * rise, width + SEAM - 3),
        (-raised - SEAM, width - 0.65 * shaped + SEAM),
    )
    left, low = min(x for x, _ in points), min(y for _, y in points)
    return tuple((x - left, y - low) for x, y in points)
