"""How alike two cloths behave, and how much a cloth would be missed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from stash.cloth.hand import hand_of

if TYPE_CHECKING:
    from datetime import date

    from stash.cloth.record import Cloth

SPREAD = {
    "stretch across": 20.0,
    "stretch along": 20.0,
    "recovery": 10.0,
    "weight": math.log(1.5),
    "hand": 1.0,
}
"""A difference a fitting would feel, one per property (a house choice): 20 points of stretch,
10 of recovery, half as heavy again, one step of hand."""

OTHER_STRUCTURE = 0.5
"""A knit tells little about how a woven will fit, and the other way round."""

OLD_AFTER_YEARS = 5.0
"""A house choice: what lay on the shelf this long is as good as forgotten."""
DEAR_PRICE = 30.0
"""Per metre, in the settings' currency: a cloth this dear is missed fully for its price."""


def behaviour(cloth: Cloth) -> dict[str, float]:
    """What is known of how the cloth behaves, on scales where equal steps feel equal."""
    hand, _ = hand_of(cloth)
    found = {
        "stretch across": cloth.stretch_across,
        "stretch along": cloth.stretch_along,
        "recovery": cloth.recovery,
        "weight": math.log(cloth.weight) if cloth.weight else None,
        "hand": None if hand is None else float(hand),
    }
    return {name: value for name, value in found.items() if value is not None}


def likeness(cloth: Cloth, other: Cloth) -> float | None:
    """1 (behaves the same) down to 0; None when nothing but their structure is known of both.

    The standardised distance is the root mean square of the differences, each over its
    `SPREAD`; a distance of 1 gives 0.61.
    """
    one, two = behaviour(cloth), behaviour(other)
    shared = [name for name in SPREAD if name in one and name in two]
    if not shared:
        return None if cloth.structure is other.structure else OTHER_STRUCTURE
    squares = [((one[name] - two[name]) / SPREAD[name]) ** 2 for name in shared]
    alike = math.exp(-sum(squares) / len(squares) / 2)
    return alike if cloth.structure is other.structure else alike * OTHER_STRUCTURE


def differences(cloth: Cloth, other: Cloth) -> tuple[str, ...]:
    """The properties in which a fitting would feel a difference, most felt first."""
    one, two = behaviour(cloth), behaviour(other)
    felt = [
        (abs(one[name] - two[name]) / spread, name)
        for name, spread in SPREAD.items()
        if name in one and name in two
    ]
    return tuple(name for size, name in sorted(felt, key=lambda item: -item[0]) if size >= 1)


def missed(cloth: Cloth, today: date) -> float:
    """How much the cloth would be missed, 0-1: loved, dear, new, and not to be had again.

    What is not known (price, when it came) is left out of the mean.
    """
    marks = [((cloth.loved - 1) / 4, 0.5), (0.0 if cloth.again else 1.0, 0.15)]
    if cloth.price is not None:
        marks.append((min(1.0, float(cloth.price) / DEAR_PRICE), 0.2))
    age = aged(cloth, today)
    if age is not None:
        marks.append((1 - age, 0.15))
    return sum(mark * weight for mark, weight in marks) / sum(weight for _, weight in marks)


def aged(cloth: Cloth, today: date) -> float | None:
    """0 (new) to 1 (on the shelf for `OLD_AFTER_YEARS` or more); None: nobody knows."""
    if cloth.got is None:
        return None
    return min(1.0, max(0.0, (today - cloth.got).days / 365.25 / OLD_AFTER_YEARS))
