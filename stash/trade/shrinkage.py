"""What a cloth nobody tested may lose at its first wash, and lengths before and after."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

from stash.trade.fibres import fibre_family
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterable

_WOVEN: dict[str, tuple[float, float]] = {
    "cotton": (5, 3),
    "linen": (8, 5),
    "viscose": (10, 6),
    "wool": (5, 3),
    "silk": (8, 3),
    "synthetic": (2, 1),
}
"""Length and width, per cent, of untreated cloth: the upper ends of planning ranges in use by
dressmakers (from memory), because cloth cut too short cannot be mended."""

_KNIT: dict[str, tuple[float, float]] = {
    "cotton": (8, 6),
    "linen": (8, 6),
    "viscose": (10, 8),
    "wool": (5, 3),
    "silk": (8, 3),
    "synthetic": (2, 1),
}
"""As above, for jersey and interlock (from memory)."""

_UNKNOWN_WOVEN = (5.0, 5.0)
"""ASTM F1506 (2018) 7.5.1: at most 5 % where no limit is specified, as quoted."""
_UNKNOWN_KNIT = (8.0, 6.0)
"""As cotton jersey, the commonest knit."""
_STRETCH_WOVEN_WIDTH = 8.0
"""Cotton with elastane, woven: 4-8 % in width (from memory)."""


def default_shrinkage(structure: str, fibres: Iterable[tuple[str, float]]) -> tuple[float, float]:
    """Per cent of (length, width) to expect at the first wash of an untested cloth.

    A blend loses the mean of its fibres by their shares: a rule of our own.

    Args:
        structure: `woven`, `knit` and so on; all but knits are taken as wovens.
        fibres: Generic names and per cent, as `fibres.parse_fibres` gives them.
    """
    knit = structure == "knit"
    table, unknown = (_KNIT, _UNKNOWN_KNIT) if knit else (_WOVEN, _UNKNOWN_WOVEN)
    shares = tuple(fibres)
    total = sum(percent for _, percent in shares)
    if total <= 0:
        return unknown
    length = width = 0.0
    for name, percent in shares:
        lost = table.get(fibre_family(name), unknown)
        length += lost[0] * percent / total
        width += lost[1] * percent / total
    stretchy = any(name == "elastane" for name, _ in shares)
    mostly_cotton = any(
        fibre_family(name) == "cotton" and percent > total / 2 for name, percent in shares
    )
    if stretchy and mostly_cotton and not knit:
        width = _STRETCH_WOVEN_WIDTH
    return round(length, 1), round(width, 1)


@lru_cache(maxsize=1024)
def kept(percent_lost: float) -> Fraction:
    """The share left after losing `percent_lost`, exact in the decimals it was typed with."""
    return 1 - Fraction(str(percent_lost)) / 100


def before_wash(net: Length, percent_lost: float) -> Length:
    """What to start from so that `net` is left: net / (1 - s), up to the nanometre.

    Not net x (1 + s), which falls short. `percent_lost` is below 100.
    """
    share = kept(percent_lost)
    return Length(-(-net.nm * share.denominator // share.numerator))


def after_wash(length: Length, percent_lost: float) -> Length:
    """What is left of `length`: length x (1 - s), down to the nanometre."""
    share = kept(percent_lost)
    return Length(length.nm * share.numerator // share.denominator)
