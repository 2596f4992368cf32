"""How often two makes that do not fit a cloth one after the other fit it laid together.

    python tests/services/plan_joint.py [MOST]

On the sample: every two makes and every cloth either could be cut from, where both lengths
together are too long and no bound forbids it; at most MOST of them, taken by a fixed seed.
"""

from __future__ import annotations

import random
import sys
from dataclasses import replace
from itertools import combinations

from stash.cloth.washing import washed_length, washed_usable_width
from stash.pairing.judgement import Pairing
from stash.pairing.needs import question_for
from stash.services.laybook import StashLays
from stash.services.pairing import judged
from stash.services.solving import prepared
from stash.services.stash import Stash
from stash.services.whole import Whole, read_whole
from stash.units.length import Length

MOST = 100
Pair = tuple[Pairing, Pairing]


def pairs_to_try(whole: Whole, pairings: tuple[Pairing, ...]) -> list[Pair]:
    """Both could be cut from all of the cloth alone, not one after the other."""
    by_cloth: dict[int, list[Pairing]] = {}
    for one in sorted(pairings, key=lambda p: (p.make_id, p.role)):
        if one.verdict.can_be_cut and one.need.lay is not None:
            by_cloth.setdefault(one.cloth_id, []).append(one)
    found = []
    for cloth_id, some in sorted(by_cloth.items()):
        cloth = whole.cloths[cloth_id]
        have, width = washed_length(cloth.left, cloth).mm, washed_usable_width(cloth).mm
        for one, other in combinations(some, 2):
            lays = [p.need.lay for p in (one, other) if p.need.lay]
            area = sum(lay.utilisation * lay.need * lay.width for lay in lays)
            apart = sum(lay.need for lay in lays)
            if one.make_id != other.make_id and area / width <= have < apart:
                found.append((one, other))
    return found


def main() -> None:
    """Lay them, and print how many fit and what the joint lays save."""
    most = int(sys.argv[1]) if len(sys.argv) > 1 else MOST
    with Stash.sample() as stash:
        whole = read_whole(stash)
        asked = [
            (make, role, cloth)
            for make in whole.waiting()
            for role in whole.roles_of(make)
            for cloth in whole.cloths.values()
            if cloth.left and not (cloth.flaws or cloth.outline or cloth.repeat_length)
        ]
        every = pairs_to_try(whole, judged(stash, whole, asked))
        some = random.Random(1).sample(every, min(most, len(every)))
        needs = prepared(stash, (), book=StashLays(stash))
        fit, saved = 0, []
        for one, other in some:
            cloth = whole.cloths[one.cloth_id]
            first, second = whole.makes[one.make_id], whole.makes[other.make_id]
            asked_one = question_for(first, whole.pattern_of(first), one.role, cloth)
            beside = ((second, whole.pattern_of(second), other.role),)
            need = needs.answer(replace(asked_one, beside=beside))
            if need.length is None:
                continue
            fit += need.length <= washed_length(cloth.left, cloth)
            alone = [p.need.length or Length(0) for p in (one, other)]
            saved.append(100 * (1 - need.length.nm / (alone[0] + alone[1]).nm))
    print(f"{len(every)} pairs on a cloth too short for both, {len(some)} laid together: {fit} fit")
    if saved:
        saved.sort()
        print(f"the joint lay is {saved[len(saved) // 2]:.1f} % shorter (median)")


if __name__ == "__main__":
    main()
