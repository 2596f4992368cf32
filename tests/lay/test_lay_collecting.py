"""A lay leaves no cycles behind, and looking for them is on again after it."""

from __future__ import annotations

import gc

import pytest
from lay_shapes import KITES, rectangle

from stash.lay.errors import NoRoomError
from stash.lay.problem import LayKind, Problem, Shape
from stash.lay.solve import solve

TOO_MANY = Problem(
    (Shape("square", rectangle(300, 300), 4),),
    500,
    outline=((0, 0), (500, 0), (500, 500), (0, 500)),
)


@pytest.mark.parametrize("kind", [None, *LayKind])
def test_no_lay_leaves_a_cycle(kind: LayKind | None) -> None:
    solve(KITES, kind=kind)  # what is kept from the first time on is not looked at
    gc.collect()
    solve(KITES, kind=kind, seed=2)
    assert gc.collect() == 0


def test_looking_for_cycles_is_on_or_off_as_it_was() -> None:
    solve(KITES)
    assert gc.isenabled()
    with pytest.raises(NoRoomError):
        solve(TOO_MANY, kind=LayKind.OPEN)
    assert gc.isenabled()
    gc.disable()
    try:
        solve(KITES)
        assert not gc.isenabled()
    finally:
        gc.enable()
