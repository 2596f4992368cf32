"""The shelf summed up, against sums done by hand."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from stash.services.cloths import add_cloth, shelf
from stash.services.flow import months
from stash.services.summary import By, shelf_summary
from stash.services.whole import read_whole
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from stash.services.stash import Stash

SHELF = (
    ("Moss drill", "woven", "1.5 m", "60% cotton 40% linen", "10.00", "2024-03-01"),
    ("Grey baize", "woven", "2 m", "100% wool", "", "2025-01-15"),
    ("Rust rib", "knit", "0.5 m", "95% cotton 5% elastane", "8.50", ""),
)


@pytest.fixture
def shelved(empty_stash: Stash) -> Stash:
    for name, structure, length, fibres, price, got in SHELF:
        add_cloth(
            empty_stash,
            {
                "name": name,
                "structure": structure,
                "width": "140 cm",
                "length": length,
                "fibres": fibres,
                "price": price,
                "got": got,
            },
        )
    return empty_stash


def test_by_structure(shelved: Stash) -> None:
    woven, knit = shelf_summary(shelved, By.STRUCTURE)
    assert (woven.group, woven.cloths, woven.unpriced) == ("woven", 2, 1)
    assert woven.left == woven.free == Length.from_mm(3500)
    assert woven.value == Decimal("15.00")  # 1.5 m at 10.00; the baize has no price
    assert (knit.group, knit.left, knit.value) == ("knit", Length.from_mm(500), Decimal("4.25"))


def test_a_blend_counts_under_its_main_fibre(shelved: Stash) -> None:
    groups = {one.group: one.cloths for one in shelf_summary(shelved, By.FIBRE)}
    assert groups == {"cotton": 2, "wool": 1}


def test_years_stand_in_order_and_the_unknown_last(shelved: Stash) -> None:
    assert [one.group for one in shelf_summary(shelved, By.YEAR)] == ["2024", "2025", "not known"]


def test_a_filter_chooses_and_an_empty_shelf_has_no_sums(shelved: Stash) -> None:
    assert [one.group for one in shelf_summary(shelved, By.STATE, "is:knit")] == ["free"]
    assert shelf_summary(shelved, By.STATE, "nothing-like-this") == ()


@pytest.mark.parametrize("by", By)
def test_the_groups_add_up_to_the_shelf(by: By, sample_stash: Stash) -> None:
    rows, sums = shelf(sample_stash), shelf_summary(sample_stash, by)
    assert sum(one.cloths for one in sums) == len(rows)
    assert sum((one.left for one in sums), ZERO) == sum((row.cloth.left for row in rows), ZERO)
    assert sum((one.free for one in sums), ZERO) == sum((row.free for row in rows), ZERO)


def test_by_age_counts_whole_years(shelved: Stash) -> None:
    """On 1 October 2026: 1 March 2024 is 2 years and 7 months ago, 15 January 2025 is 1 year."""
    sums = shelf_summary(shelved, By.AGE)
    assert [(one.group, one.cloths) for one in sums] == [
        ("1 year", 1),
        ("2 to 4 years", 1),
        ("not known", 1),
    ]


def test_months_set_what_came_against_what_was_cut(sample_stash: Stash) -> None:
    """The sums of the months are those of the shelf and of what makes hold as cut."""
    whole = read_whole(sample_stash)
    found = months(sample_stash)
    assert sum((one.bought for one in found), ZERO) == sum(
        (cloth.bought for cloth in whole.cloths.values()), ZERO
    )
    used = [held.length for held in whole.promises if held.cut]
    assert sum((one.cut for one in found), ZERO) == sum(used, ZERO)
    assert used
    assert [one.month for one in found] == sorted(one.month for one in found)
    assert sum(one.cloths for one in found) == len(whole.cloths)


def test_months_by_hand(shelved: Stash) -> None:
    march, january, unknown = months(shelved)[0], months(shelved)[1], months(shelved)[2]
    assert (march.month, march.cloths, march.spent) == ("2024-03", 1, Decimal("15.00"))
    assert (january.month, january.bought) == ("2025-01", Length.from_mm(2000))
    assert (unknown.month, unknown.spent) == ("not known", Decimal("4.25"))
