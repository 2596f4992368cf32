"""The season plan against trying every way there is.

    python tests/pairing/plan_brute.py [INSTANCES]

Random instances of up to 6 makes and 6 cloths from fixed seeds; prints how many agree.
"""

from __future__ import annotations

import itertools
import random
import sys
from typing import TYPE_CHECKING

from stash.pairing.assign import (
    SAVED_TOGETHER,
    TENTHS_PER_METRE,
    Choice,
    Joint,
    Option,
    Outfit,
    Spending,
    assign,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

INSTANCES = 200
CLOSE = 1e-3
"""More than ties may weigh, less than any worth below."""
MOST_WAYS = 300_000


def worth_of(choice: Choice, taken: Sequence[int]) -> float | None:
    """Worth of a choice, None when it breaks a limit: written without the programme's rows."""
    options = [choice.options[place] for place in taken]
    saved = 0.0
    for cloth in sorted({o.cloth for o in options}):
        most = _most_saved(choice, taken, cloth)
        if most is None:
            return None
        saved += most
    filled = {option.slot for option in options}
    bonus = sum(bonus for slots, bonus in choice.whole_makes if set(slots) <= filled)
    bonus += sum(o.gain for o in choice.outfits if o.one in taken and o.other in taken)
    lost = _waiting(choice, filled)
    return sum(option.gain for option in options) + bonus + saved - lost


def _most_saved(choice: Choice, taken: Sequence[int], cloth: int) -> float | None:
    """Worth of the length joint lays save at best; None: no way of laying them fits the cloth."""
    users = [place for place in taken if choice.options[place].cloth == cloth]
    slots = {choice.options[place].slot for place in users}
    if any({one, other} <= slots for one, other in choice.apart):
        return None
    joints = [j for j in choice.joints if j.one in users and j.other in users]
    alone = sum(choice.options[place].length for place in users)
    best: float | None = None
    for count in range(len(joints) + 1):
        for some in itertools.combinations(joints, count):
            ends = [end for joint in some for end in (joint.one, joint.other)]
            lays = len(users) - len(some)
            if len(ends) != len(set(ends)) or (cloth in choice.once and lays > 1):
                continue
            saved = sum(choice.options[end].length for end in ends) - sum(j.length for j in some)
            if alone - saved <= choice.room[cloth] + 1:  # the last tenth is rounding
                best = max(best or 0.0, saved * SAVED_TOGETHER / TENTHS_PER_METRE)
    return best


def _waiting(choice: Choice, filled: set[int]) -> float:
    """The least worth lost by makes that wait, so that the others can be bought."""
    spending = choice.spending
    if spending is None:
        return 0.0
    best = float("inf")
    for some in itertools.product((False, True), repeat=len(spending.waits)):
        idle = {
            s
            for (slots, _), waits in zip(spending.waits, some, strict=True)
            if waits
            for s in slots
        }
        cost = sum(c for slot, c in spending.costs.items() if slot not in filled | idle)
        if cost <= spending.budget:
            lost = sum(w for (_, w), waits in zip(spending.waits, some, strict=True) if waits)
            best = min(best, lost)
    return best


def brute_force(choice: Choice) -> float:
    """The most any way is worth."""
    every = (worth_of(choice, way) for way in _ways(choice))
    return max(worth for worth in every if worth is not None)


def _ways(choice: Choice) -> itertools.chain[tuple[int, ...]]:
    slots = sorted({option.slot for option in choice.options})
    ways = [
        [None, *(p for p, option in enumerate(choice.options) if option.slot == slot)]
        for slot in slots
    ]
    return itertools.chain(
        tuple(p for p in way if p is not None) for way in itertools.product(*ways)
    )


def ways_of(choice: Choice) -> int:
    """How many ways there are to try."""
    count = 1
    for slot in {option.slot for option in choice.options}:
        count *= 1 + sum(option.slot == slot for option in choice.options)
    return count


def random_choice(seed: int, most: int = 4) -> Choice:
    """Up to `most` makes and cloths with every kind of limit; always the same for a seed."""
    luck = random.Random(seed)
    makes, cloths = luck.randint(1, most), luck.randint(1, most)
    slots = [slot for slot in range(makes * 2) if slot % 2 == 0 or luck.random() < 0.25]
    options = tuple(
        Option(slot, cloth_id, luck.randint(3000, 20000), round(luck.uniform(0.05, 4), 2))
        for slot in slots
        for cloth_id in range(cloths)
        if luck.random() < 0.7
    )
    by_make = [tuple(s for s in slots if s // 2 == number) for number in range(makes)]
    pairs = list(itertools.combinations(range(len(options)), 2))
    luck.shuffle(pairs)
    apart = ((0, 2),) if makes > 1 and luck.random() < 0.5 else ()
    return Choice(
        options=options,
        room={cloth_id: luck.randint(20000, 32000) for cloth_id in range(cloths)},
        whole_makes=tuple((each, round(luck.uniform(0, 1), 2)) for each in by_make if each),
        once=frozenset(c for c in range(cloths) if luck.random() < 0.2),
        apart=apart,
        joints=tuple(_joints(luck, options, pairs)),
        outfits=tuple(
            Outfit(a, b, round(luck.uniform(0.05, 1), 2))
            for a, b in pairs[:6]
            if options[a].slot != options[b].slot
        ),
        spending=_spending(luck, slots, by_make) if luck.random() < 0.5 else None,
    )


def _joints(
    luck: random.Random, options: Sequence[Option], pairs: Sequence[tuple[int, int]]
) -> list[Joint]:
    found = []
    for a, b in pairs:
        one, other = options[a], options[b]
        if one.cloth == other.cloth and one.slot != other.slot and luck.random() < 0.4:
            longest, both = max(one.length, other.length), one.length + other.length
            found.append(Joint(a, b, luck.randint(longest, both)))
    return found


def _spending(
    luck: random.Random, slots: Sequence[int], by_make: Sequence[tuple[int, ...]]
) -> Spending:
    costs = {slot: luck.randint(500, 4000) for slot in slots}
    return Spending(
        budget=luck.randint(0, 6000),
        costs=costs,
        waits=tuple((each, round(luck.uniform(0.2, 4), 2)) for each in by_make if each),
    )


def agrees(choice: Choice) -> bool:
    """The programme proves its choice, keeps every limit, and nothing is worth more."""
    found = assign(choice)
    worth = worth_of(choice, found.taken)
    return found.proven and worth is not None and abs(worth - brute_force(choice)) <= CLOSE


def main() -> None:
    """Try them and say how many agree."""
    wanted = int(sys.argv[1]) if len(sys.argv) > 1 else INSTANCES
    tried = right = seed = 0
    while tried < wanted:
        choice = random_choice(seed, most=6)
        seed += 1
        if ways_of(choice) > MOST_WAYS:
            continue
        tried += 1
        right += agrees(choice)
    print(f"{right} of {tried} random instances agree with trying every way (seeds below {seed})")


if __name__ == "__main__":
    main()
