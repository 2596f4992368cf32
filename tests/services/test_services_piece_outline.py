"""What is folded must have something to fold at, and half a piece is not all of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from stash.errors import BadInputError
from stash.services.checking import check_stash
from stash.services.half_pieces import half_words
from stash.services.laying import lay_pattern
from stash.services.pattern_import import look_at, take_pieces
from stash.services.pattern_parts import edit_part, get_part
from stash.services.patterns import add_pattern, add_piece, get_pattern
from stash.store import patterns as store

if TYPE_CHECKING:
    from pathlib import Path

    from stash.garment.pattern import Pattern
    from stash.services.stash import Stash

ROUND = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400">'
    '<circle cx="200" cy="200" r="150"><title>pocket | cut 2</title></circle></svg>'
)
FLAT = "pocket: it has no straight edge along its grain to fold at."


@pytest.fixture
def pier(empty_stash: Stash, tmp_path: Path) -> Stash:
    """A bag with a round pocket."""
    (tmp_path / "pocket.svg").write_text(ROUND)
    add_pattern(empty_stash, {"name": "Pier", "kind": "bag"})
    take_pieces(empty_stash, "Pier", look_at(tmp_path / "pocket.svg"))
    return empty_stash


def change(stash: Stash, **texts: str) -> Pattern:
    pattern, part = get_part(stash, "Pier", 1)
    return edit_part(stash, "Pier", part, texts, base=pattern)


def test_a_round_piece_is_not_put_on_the_fold(pier: Stash) -> None:
    with pytest.raises(BadInputError) as error:
        change(pier, on_fold="yes")
    assert error.value.message == FLAT
    assert "on_fold=no" in error.value.hint
    assert lay_pattern(pier, "Pier", width="140 cm").lay is not None
    assert check_stash(pier).sound


def test_one_that_was_put_there_before_is_found(pier: Stash) -> None:
    pattern = get_pattern(pier, "Pier")
    (pocket,) = pattern.pieces
    with pier.write("as it once could be") as session:
        store.update_pattern(session, replace(pattern, pieces=(replace(pocket, on_fold=True),)))
    (finding,) = check_stash(pier).findings
    assert finding.wrong == "the piece pocket has no straight edge along its grain to fold at."
    assert finding.todo.endswith("stash pattern edit-part 1 1 on_fold=no")
    with pytest.raises(BadInputError, match="no straight edge along its grain"):
        lay_pattern(pier, "Pier", width="140 cm")
    change(pier, on_fold="no")
    assert check_stash(pier).sound


PANEL = {"name": "front", "waist": "70 cm", "hip": "90 cm", "length": "60 cm", "sweep": "110 cm"}


def test_half_a_drafted_piece_is_told(empty_stash: Stash) -> None:
    before = add_pattern(empty_stash, {"name": "Pier", "kind": "straight skirt"})
    now = add_piece(empty_stash, "Pier", "skirt panel", PANEL)
    assert half_words(before, now) == ""
    one = change(empty_stash, on_fold="no")
    told = (
        "Only one half of front is cut now. For both halves: "
        'stash pattern edit-part "Pier" 1 copies=2 mirrored=yes'
    )
    assert half_words(now, one) == told
    longer = change(empty_stash, length="62 cm")
    assert half_words(one, longer) == ""  # it was told
    alike = change(empty_stash, copies="2", mirrored="no")
    assert "Only 2 halves of front are cut now, all the same" in half_words(longer, alike)
    pair = change(empty_stash, copies="2", mirrored="yes")
    assert half_words(alike, pair) == ""
    second = add_piece(
        empty_stash, "Pier", "skirt panel", PANEL | {"name": "back", "on_fold": "no"}
    )
    assert '"Pier" 2 copies=2' in half_words(pair, second)


def test_two_pieces_on_the_fold_are_four_halves(empty_stash: Stash) -> None:
    add_pattern(empty_stash, {"name": "Pier", "kind": "straight skirt"})
    two = add_piece(empty_stash, "Pier", "skirt panel", PANEL | {"copies": "2"})
    off = change(empty_stash, on_fold="no", mirrored="yes")
    assert "copies=4 mirrored=yes" in half_words(two, off)
