"""Every kind and role has defaults in the words of the records."""

from __future__ import annotations

import pytest

from stash.cloth.record import Structure
from stash.garment.defaults import default_asks, default_notions
from stash.garment.pattern import Kind, Role
from stash.units.length import ZERO


@pytest.mark.parametrize("kind", list(Kind))
@pytest.mark.parametrize("role", list(Role))
def test_every_kind_asks_something_of_every_role(kind: Kind, role: Role) -> None:
    asks = default_asks(kind, role)
    assert asks.role is role
    assert asks.weight_low is not None
    assert asks.weight_high is not None
    assert asks.weight_low < asks.weight_high


def test_a_turtleneck_asks_for_a_stretchy_knit_that_recovers() -> None:
    """Turtlenecks are of the 50-75 % class, with recovery (trade classes, from memory)."""
    asks = default_asks(Kind.TURTLENECK, Role.MAIN)
    assert asks.structures == (Structure.KNIT,)
    assert (asks.stretch_across or 0) >= 50
    assert (asks.recovery or 0) > 0


def test_notions_by_kind() -> None:
    """Tailored trousers close with a zip of 18-23 cm (7-9 in, common practice)."""
    zips = [n for n in default_notions(Kind.TROUSERS_TAILORED) if "zip" in n.name]
    assert [z.amount for z in zips] == [1]
    assert 180 <= zips[0].length.mm <= 230
    assert any("elastic" in notion.name for notion in default_notions(Kind.TROUSERS_ELASTIC))
    assert all(n.length >= ZERO for kind in Kind for n in default_notions(kind))
