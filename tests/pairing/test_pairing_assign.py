"""The integer programme against trying every way there is; see also `plan_brute`."""

from __future__ import annotations

import pytest
from plan_brute import agrees, random_choice

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
