"""Names of pieces: what is written out comes back, and what is said beside one is left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from drawn_kit import look

from stash.garment.pattern import Piece
from stash.intake.drawn_words import read_writing
from stash.intake.svg_titles import Said
from stash.report.pieces_svg import pieces_svg

if TYPE_CHECKING:
    from pathlib import Path

RING = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0))


@pytest.mark.parametrize(
    "name", ["Front (left)", "[bold]ly cut front", "front; left side", "(upper) collar", "a & <b>c"]
)
def test_a_name_comes_back_from_a_drawing(tmp_path: Path, name: str) -> None:
    [found] = look(tmp_path, pieces_svg([Piece(name=name, outline=RING, copies=3)])).sheet.found
    assert found.piece is not None
    assert (found.name, found.piece.copies, found.guessed) == (name, 3, ())


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Front (cut 2)", "Front"),
        ("Front [cut 2, on fold]", "Front"),
        ("Front (left) - cut 2", "Front (left)"),
        ("(Front)", "Front"),
        ("Front (cut 2", "Front"),
        ("cut 2) Front", "Front"),
        ("sleeve; cut 2", "sleeve"),
        ("sleeve; cut 2 | size M", "sleeve"),
    ],
)
def test_what_is_said_beside_a_name_is_left_out_of_it(text: str, name: str) -> None:
    heard = read_writing([text], Said())
    assert (heard.names, heard.said.copies) == ((name,), 1 if text == "(Front)" else 2)
