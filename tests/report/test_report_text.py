"""Tables, lines and plain data."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.cloth.record import Hand, Structure
from stash.report.columns import sides, table, wrapped
from stash.report.plain import plain
from stash.report.plan_text import plan_text
from stash.services.planning import plan_book
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.stash import Stash

words = st.text(st.characters(codec="ascii", categories=("L", "N", "P")), max_size=40)


@dataclass
class _All:
    width: Length
    hand: Hand
    structure: Structure
    got: date
    price: Decimal
    measures: tuple[tuple[str, Length], ...]
    missing: Length | None = None


def test_records_become_plain_data() -> None:
    record = _All(
        Length.from_inches(1),
        Hand.CRISP,
        Structure.KNIT,
        date(2026, 1, 2),
        Decimal("3.50"),
        (("waist", Length.from_mm(780)),),
    )
    assert plain(record) == {
        "width_mm": 25.4,
        "hand": "crisp",
        "structure": "knit",
        "got": "2026-01-02",
        "price": "3.50",
        "measures": [{"name": "waist", "mm": 780.0}],
        "missing": None,
    }


@given(st.lists(st.tuples(words, words, words), max_size=6), st.integers(40, 120))
def test_a_table_never_grows_wider_than_asked(rows: list[tuple[str, str, str]], width: int) -> None:
    lines = table(("One", ">Two", "Three"), rows, width).split("\n")
    assert len(lines) == len(rows) + 2
    assert max(len(line) for line in lines) <= width


def test_a_column_can_stand_to_the_right() -> None:
    assert table((">N", "Name"), [("9", "a"), ("10", "b")]).splitlines()[2:] == [" 9  a", "10  b"]


def test_the_kept_column_is_cut_last() -> None:
    row = ("n" * 20, "p" * 30)
    assert table(("Name", "Notes"), [row], 40, keep=0).splitlines()[2].startswith("n" * 20 + "  p")


def test_two_ends_of_a_line() -> None:
    assert sides("left", "right", 14) == "left     right"
    assert sides("a long left text", "right", 20).splitlines() == [
        "a long left text",
        "               right",
    ]
    assert wrapped("one two three", 9, 2).splitlines() == ["  one two", "  three"]


def test_an_empty_queue_says_what_to_do(empty_stash: Stash) -> None:
    assert "stash make add" in plan_text(plan_book(empty_stash))


@pytest.mark.parametrize("width", [60, 80, 100])
def test_the_plan_keeps_to_its_width(small: Stash, width: int) -> None:
    text = plan_text(plan_book(small), width)
    assert max(len(line) for line in text.splitlines()) <= width
