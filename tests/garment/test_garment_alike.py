"""Names that stand for the same pattern."""

from __future__ import annotations

import pytest

from stash.garment.alike import near_names, same_name


@pytest.mark.parametrize(
    ("name", "other", "near"),
    # Slips and orders of words as people write them on binders; our own names.
    [
        ("Quay skirt", "quay  SKIRT", True),
        ("Skirt, quay", "Quay skirt", True),
        ("Quay skirrt", "Quay skirt", True),
        ("Coat 1042", "Coat 1043", False),
        ("Quay skirt", "Quay shirt dress", False),
        ("Jupe d'été", "jupe d'ete", True),
    ],
)
def test_near_names(name: str, other: str, near: bool) -> None:
    assert bool(near_names(name, [other])) is near


def test_the_same_name_whatever_its_spelling() -> None:
    assert same_name("Jupe d'Été", "jupe d’ete")
    assert not same_name("Quay skirt", "Skirt quay")
