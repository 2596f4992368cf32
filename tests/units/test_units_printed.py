"""Amounts as envelopes print them."""

from __future__ import annotations

import pytest

from stash.errors import BadInputError
from stash.units.length import Length
from stash.units.parse_length import parse_length
from stash.units.printed import parse_printed


@pytest.mark.parametrize(
    # Pairs printed on a tissue pattern's envelope (pull-on knit skirts at 60 in / 150 cm).
    ("yards", "metres"),
    [
        *(("1 1/4", "1.1"), ("1 3/8", "1.3"), ("1 1/2", "1.4"), ("1 5/8", "1.5")),
        *(("1 3/4", "1.6"), ("1 7/8", "1.7"), ("2 1/4", "2.1"), ("2 3/8", "2.2"), ("2 1/2", "2.3")),
    ],
)
@pytest.mark.parametrize("form", ["{0} yd ({1} m)", "{0} yd / {1} m", "{1} m = {0} yds."])
def test_of_two_amounts_the_longer_counts(yards: str, metres: str, form: str) -> None:
    both = parse_printed(form.format(yards, metres))
    assert both == max(parse_length(f"{yards} yd"), parse_length(f"{metres} m"))


def test_one_amount_is_read_as_any_length_and_two_must_agree() -> None:
    assert parse_printed("1,5 m") == Length.from_mm(1500)
    assert parse_printed("5'3\"") == Length.from_inches(63)
    with pytest.raises(BadInputError, match="not the same amount"):
        parse_printed("2 1/4 yd (1.2 m)")
