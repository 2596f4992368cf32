"""Small changes to the order in which pieces are put down, as local searches try them."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from random import Random

Entry = TypeVar("Entry")


def rearranged(
    order: Sequence[Entry], dice: Random, moves: float, other: Callable[[Entry, float], Entry]
) -> list[Entry]:
    """The order after one to three changes.

    Two entries are exchanged, as often one is moved, in the share `moves` of the cases each;
    else `other` changes one, by the number from 0 to 1 that chose it.
    """
    changed = list(order)
    for _ in range(dice.choice((1, 1, 2, 3))):
        one, two = dice.randrange(len(changed)), dice.randrange(len(changed))
        what = dice.random()
        if what < moves:
            changed[one], changed[two] = changed[two], changed[one]
        elif what < 2 * moves:
            changed.insert(two, changed.pop(one))
        else:
            changed[one] = other(changed[one], what)
    return changed
