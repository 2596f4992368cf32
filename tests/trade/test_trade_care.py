"""How a cloth may be washed, from the words people write and from its fibres."""

from __future__ import annotations

import pytest

from stash.trade.care import Washing, washing_from_fibres, washing_from_words


@pytest.mark.parametrize(
    ("text", "washing"),
    # What the words say in plain English; a care label's `dry clean only` forbids washing.
    [
        ("dry clean only", Washing.NOT),
        ("Dryclean", Washing.NOT),
        ("wipe clean, do not wash", Washing.NOT),
        ("steam only", Washing.NOT),
        ("hand wash", Washing.HAND),
        ("wash by hand, 30", Washing.HAND),
        ("wool wash", Washing.HAND),
        ("30 wash, inside out", Washing.MACHINE),
        ("40 degrees, hang to dry", Washing.MACHINE),
        ("cold wash, no iron on the pile", Washing.MACHINE),
        ("", None),
        ("keep from moths", None),
    ],
)
def test_care_in_words(text: str, washing: Washing | None) -> None:
    assert washing_from_words(text) is washing


def test_the_tenderest_fibre_decides() -> None:
    # Common practice: wool felts in a machine, cotton and polyester do not.
    assert washing_from_fibres([("cotton", 100.0)]) is Washing.MACHINE
    assert washing_from_fibres([("polyester", 55.0), ("wool", 45.0)]) is Washing.HAND
    assert washing_from_fibres([("cotton", 95.0), ("elastane", 5.0)]) is Washing.MACHINE
    assert washing_from_fibres([]) is None
