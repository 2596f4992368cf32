"""The integer programme against trying every way there is; see also `plan_brute`."""

from __future__ import annotations

import numpy as np
import pytest
from plan_brute import agrees, random_choice
from scipy.optimize import linear_sum_assignment

from stash.pairing.assign import Choice, Joint, Option, assign


@pytest.mark.parametrize("seed", range(80))
def test_no_other_way_is_worth_more(seed: int) -> None:
    assert agrees(random_choice(seed))


def test_what_fits_exactly_may_be_cut() -> None:
    choice = Choice(options=(Option(0, 1, 10001, 1.0),), room={1: 10000})
    assert assign(choice).taken == (0,)


def test_a_joint_lay_lets_both_have_the_cloth() -> None:
    options = (Option(0, 1, 8000, 1.0), Option(1, 1, 8000, 1.0))
    assert len(assign(Choice(options=options, room={1: 12000})).taken) == 1
    both = assign(Choice(options=options, room={1: 12000}, joints=(Joint(0, 1, 12000),)))
    assert both.taken == (0, 1)
    assert both.joined == (0,)
    too_long = Joint(0, 1, 15000)
    assert len(assign(Choice(options=options, room={1: 12000}, joints=(too_long,))).taken) == 1


def test_a_large_plan_is_as_near_the_best_as_it_says() -> None:
    """50 slots, 20 cloths that take two lays each: an assignment problem, which scipy solves."""
    options = tuple(
        Option(slot, cloth, 4000 + 37 * (slot % 11), 1 + (slot * 7 + cloth * 13) % 17 / 17)
        for slot in range(50)
        for cloth in range(20)
    )
    choice = Choice(options=options, room=dict.fromkeys(range(20), 10000))
    found = assign(choice)
    assert found == assign(choice)
    gains = np.array([option.gain for option in options]).reshape(50, 20)
    twice = np.repeat(gains, 2, axis=1)
    best = twice[linear_sum_assignment(twice, maximize=True)].sum()
    gain = sum(options[place].gain for place in found.taken)
    assert (1 - found.gap) * best - 1e-3 <= gain <= best + 1e-9
    assert found.gap <= 0.001
