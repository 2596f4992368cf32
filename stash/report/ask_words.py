"""What a role asks of its cloth, in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.pairing.factors import hand_range, weight_words
from stash.units.percent import show_percent

if TYPE_CHECKING:
    from stash.config import System
    from stash.garment.pattern import Asks


def ask_words(asks: Asks, system: System) -> str:
    """What is asked of a cloth in one line; empty where anything will do."""
    across, along = asks.stretch_across, asks.stretch_along
    said = [
        " or ".join(asks.structures),
        f"stretch {show_percent(across)} across" if across else "",
        f"{'' if across else 'stretch '}{show_percent(along)} along" if along else "",
        f"recovery {show_percent(asks.recovery)}" if asks.recovery else "",
        weight_words(asks, system),
        hand_range(asks.hand_low, asks.hand_high),
        "" if asks.nap_allowed else "no nap",
        f"of {', '.join(asks.fibres)}" if asks.fibres else "",
        f"not {', '.join(asks.avoid)}" if asks.avoid else "",
    ]
    return ", ".join(filter(None, said))
