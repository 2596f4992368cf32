"""Which cloths of a large shelf are laid out for a season, and that nobody goes without for it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from pairing_kit import SETTINGS, Book, cloth, cm, given, make, pattern, plan_for, strip

from stash.garment.pattern import Kind
from stash.pairing.judgement import Verdict
from stash.pairing.needs import missing_problems
from stash.pairing.shortlist import BEYOND, LISTED
from stash.pairing.slots import plan_questions

SHIRT = replace(pattern(), tested=True)


def test_only_the_best_of_a_large_shelf_are_laid_out() -> None:
    """Every cloth has a width of its own, so every cloth asked of is a lay."""
    shelf = [cloth(id=n, width=cm(100 + n), weight=100.0 + n) for n in range(1, 81)]
    questions = plan_questions([make()], {1: SHIRT}, shelf, [], SETTINGS)
    assert len(missing_problems(questions, Book())) <= LISTED + BEYOND
    book = Book()
    plan = plan_for([make()], [SHIRT], shelf, book=book)
    assert given(plan)[1] is not None
    assert len(book.lays) <= LISTED + BEYOND


def test_makes_that_like_the_same_cloths_all_get_one() -> None:
    """Each cloth holds one shirt: as many makes as cloths leave none over and none without."""
    shelf = [cloth(id=n, left=cm(102), hand=None if n > 12 else cloth().hand) for n in range(1, 41)]
    makes = [make(f"make {n}", id=n, priority=1 + n % 5) for n in range(1, 41)]
    plan = plan_for(makes, [SHIRT], shelf)
    assert sorted(c for c in given(plan).values() if c) == list(range(1, 41))


def test_cloths_that_only_looked_long_enough_do_not_bar_the_one_that_is() -> None:
    """Strips of 80 cm on cloth 150 cm wide lie one after the other and leave half of it unused.

    Three of a metre each take 3 m; by their area they might go on 1.6 m (arithmetic).
    """
    wide = (strip("panel", 100, 80, copies=3),)
    skirt = replace(pattern(Kind.SKIRT_STRAIGHT, wide), tested=True)
    like: dict[str, Any] = {"width": cm(152), "washed": True, "left": cm(250)}
    shelf = [cloth(id=n, **like) for n in range(1, 31)]
    enough = cloth(id=99, **(like | {"left": cm(320), "hand": None}))
    plan = plan_for([make(pattern_id=1)], [skirt], [*shelf, enough])
    role = plan.roles[0]
    assert role.pairing is not None
    assert role.pairing.cloth_id == 99
    assert role.pairing.verdict in (Verdict.FITS, Verdict.CLOSE)
    assert role.pairing.need.length == cm(300)
