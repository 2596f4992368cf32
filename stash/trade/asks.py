"""What each garment kind asks of its cloth when its pattern says nothing: plain data.

Kinds, roles and structures are the words of `garment.pattern` and `cloth.record`. Weights
and hands are common practice; stretch follows the trade's classes (see `trade.stretch`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True, kw_only=True)
class AskRow:
    """Asks of one role. Per cent, g/m², hand 1 (fluid) to 5 (crisp); None: anything."""

    role: str = "main"
    structures: tuple[str, ...] = ()
    stretch_across: float | None = None
    stretch_along: float | None = None
    recovery: float | None = None
    weight_low: float | None = None
    weight_high: float | None = None
    hand_low: int | None = None
    hand_high: int | None = None
    nap_allowed: bool = True


def _row(
    structures: str, weights: tuple[float, float], hands: tuple[int, int], stretch: float = 0
) -> AskRow:
    """A main row, written short for the table."""
    return AskRow(
        structures=tuple(structures.split()),
        weight_low=weights[0],
        weight_high=weights[1],
        hand_low=hands[0],
        hand_high=hands[1],
        stretch_across=stretch or None,
    )


MAIN_ASKS: dict[str, AskRow] = {
    "elastic trousers": _row("woven knit", (110, 300), (1, 4)),
    "tailored trousers": _row("woven", (180, 400), (2, 5)),
    "shorts": _row("woven", (130, 350), (2, 5)),
    "leggings": replace(
        _row("knit", (160, 340), (1, 3), stretch=50), stretch_along=25, recovery=85
    ),
    "straight skirt": _row("woven knit", (150, 400), (2, 5)),
    "flared skirt": _row("woven knit", (60, 300), (1, 3)),
    "t-shirt": _row("knit", (120, 240), (1, 3), stretch=25),
    "sweatshirt": _row("knit", (200, 420), (2, 4), stretch=15),
    "turtleneck": replace(_row("knit", (120, 260), (1, 3), stretch=50), recovery=80),
    "shirt": _row("woven", (70, 190), (2, 4)),
    "blouse": _row("woven", (40, 160), (1, 3)),
    "dress": _row("woven knit", (80, 280), (1, 4)),
    "pinafore": _row("woven", (170, 400), (2, 5)),
    "jacket": _row("woven felted knit", (200, 450), (3, 5)),
    "coat": _row("woven felted coated", (280, 700), (3, 5)),
    "pyjamas": _row("woven knit", (80, 220), (1, 3)),
    "bag": _row("woven felted coated", (200, 700), (3, 5)),
}

ROLE_ASKS: dict[str, AskRow] = {
    "lining": AskRow(
        role="lining",
        structures=("woven", "knit"),
        weight_low=50,
        weight_high=150,
        hand_low=1,
        hand_high=3,
    ),
    "interfacing": AskRow(role="interfacing", weight_low=20, weight_high=220),
    "rib": AskRow(
        role="rib",
        structures=("knit",),
        stretch_across=50,
        recovery=80,
        weight_low=180,
        weight_high=450,
    ),
}
"""The same for every kind. Rib bands are usually of the stretchiest class; 50 % is the least
that still pulls a cuff over a hand (common practice)."""


def asks_for(kind: str, role: str) -> AskRow:
    """The usual asks of a role of a garment kind; a contrast is asked what the main cloth is.

    Raises:
        KeyError: a kind or role that is not in the tables.
    """
    if role in ("main", "contrast"):
        return replace(MAIN_ASKS[kind], role=role)
    return ROLE_ASKS[role]
