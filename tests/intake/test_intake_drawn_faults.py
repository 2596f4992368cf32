"""Faulty outlines: each is mended and said so, or refused with the piece's name and a way out."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from drawn_kit import look, svg
from shapely.geometry import Polygon

if TYPE_CHECKING:
    from pathlib import Path

    from stash.intake.drawn_pieces import Found


def back(folder: Path, path: str, title: str = "back | cut 1") -> Found:
    """What is made of one outline drawn in our own way."""
    sheet = 'width="2000mm" height="2000mm" viewBox="0 0 2000 2000"'
    drawn = svg(f'<path d="{path}"><title>{title}</title></path>', sheet)
    [found] = look(folder, drawn).sheet.found
    assert found.name == "back"
    return found


@pytest.mark.parametrize(
    ("path", "title", "said"),
    [
        ("M0,0 L600,300 600,0 0,300 Z", "back | cut 1", "crosses itself near 300 x 150 mm"),
        ("M0,0 L600,0 600,300 0,300", "back | cut 1", "is not closed: 300.0 mm are missing"),
        ("M0,0 L600,0 300,0 Z", "back | cut 1", "it has no area: draw a closed line"),
        ("M0,0 L3,0 3,2 0,2 Z", "back | cut 1", "it is only 3.0 mm long. Check the unit"),
        # Hair-thin: nothing is left once points that lie as good as together are one.
        ("M0,0 L600,0 600,0.004 0,0.004 Z", "back | cut 1", "it has no area. Draw it at its true"),
        ("M0,0 L600,0 600,0.01 0,0.01 Z", "back | cut 1", "it has no area. Draw it at its true"),
        ("M0,0 L600,0 600,0.04 0,0.04 Z", "back | cut 1 on fold", "it has no area. Draw it at its"),
        ("M0,0 L300,0.02 600,0 Z", "back | cut 2", "it is nowhere 3 mm wide. Check the unit of"),
        ("M0,0 L5.5,0 5.5,2 0,2 Z", "back | cut 2", "it is nowhere 3 mm wide. Check the unit of"),
        ("M0,0 L400,400 401,398.5 1,-1.5 Z", "back | cut 2", "it is nowhere 3 mm wide."),
        ("M0,0 L600,0 600,1.4 0,1.4 Z", "back | cut 1 on fold", "it is nowhere 3 mm wide."),
        ("M0,0 L30000,0 30000,300 0,300 Z", "back | cut 1", "it is 30.0 m long. Check the unit"),
        (
            "M0,0 L200,0 300,20 400,0 600,0 600,300 0,300 Z",
            "back | cut 1 on fold",
            "it meets the fold in more than one place. Draw the half with one straight fold",
        ),
    ],
)
def test_what_cannot_be_laid_is_refused_when_it_is_read(
    tmp_path: Path, path: str, title: str, said: str
) -> None:
    found = back(tmp_path, path, title)
    assert found.piece is None
    assert said in "; ".join(found.wrong)


@pytest.mark.parametrize(
    ("path", "title"),
    [
        ("M0,0 L600,0 600,5 0,5 Z", "back | cut 1"),
        ("M0,0 L400,400 402.2,397.8 2.2,-2.2 Z", "back | cut 1"),
        ("M0,0 L600,0 600,3 0,3 Z", "back | cut 1"),
        ("M0,0 L600,0 600,1.5 0,1.5 Z", "back | cut 1 on fold"),
    ],
)
def test_a_narrow_binding_or_cord_is_a_piece(tmp_path: Path, path: str, title: str) -> None:
    assert back(tmp_path, path, title).piece is not None


@pytest.mark.parametrize(
    ("path", "title", "said"),
    [
        (
            "M0,0 L300,20 600,0 600,300 0,300 Z",
            "back | cut 1 on fold",
            "its upper edge is not straight: its fold is taken to be its lower edge",
        ),
        ("M0,0 L600,0 600,0 600,300 0,300 Z", "back | cut 1", "a point drawn twice is left out"),
        ("M0,0 L600,0 600,300 0,300 Z", "back | cut 0", "'cut 0' is not understood"),
        ("M0,0 L600,0 600,300 0,300 Z", "back | cut 1 | tolerance 60", "'tolerance 60' is not"),
    ],
)
def test_what_is_guessed_or_mended_is_said(
    tmp_path: Path, path: str, title: str, said: str
) -> None:
    found = back(tmp_path, path, title)
    assert found.piece is not None
    assert said in "; ".join(found.guessed)


def test_a_fold_a_little_off_grain_is_turned_onto_it(tmp_path: Path) -> None:
    """By hand: 10 mm over 600 mm are 0.95 degrees."""
    found = back(tmp_path, "M0,10 L600,0 600,300 0,300 Z", "back | cut 1 on fold")
    assert found.piece is not None
    assert any("its fold is 1.0 degrees off its grain" in guess for guess in found.guessed)
    on_line = [x for x, y in found.piece.outline if y == 0]
    assert max(on_line) - min(on_line) == pytest.approx(math.hypot(600, 10), abs=0.01)
    assert Polygon(found.piece.outline).area == pytest.approx((290 + 300) / 2 * 600, rel=1e-4)


@pytest.mark.parametrize("turn", [1, -1])
def test_ten_thousand_corners_either_way_round_become_few(tmp_path: Path, turn: int) -> None:
    angles = [turn * 2 * math.pi * step / 10_000 for step in range(10_000)]
    corners = [(700 + 500 * math.cos(a), 700 + 300 * math.sin(a)) for a in angles]
    found = back(tmp_path, "M" + " ".join(f"{x:.4f},{y:.4f}" for x, y in corners) + " Z")
    assert found.piece is not None
    assert any("of the 10000 corners of its outline" in guess for guess in found.guessed)
    assert len(found.piece.outline) < 1000
    # An ellipse has an area of pi a b.
    assert Polygon(found.piece.outline).area == pytest.approx(math.pi * 500 * 300, rel=1e-3)
