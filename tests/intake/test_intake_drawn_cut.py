"""Count and fold on a piece: a label carries name, number and fold independently, in any order.

That is common practice in printed patterns; a fold that is lost buys half a garment.
"""

from __future__ import annotations

from itertools import permutations
from typing import TYPE_CHECKING

import pytest
from drawn_kit import look, pdf, svg
from ezdxf.filemanagement import new
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import BadInputError
from stash.intake.drawn_words import read_writing
from stash.intake.svg_pieces import read_svg_pieces
from stash.intake.svg_titles import Said
from stash.services.pattern_import import look_at

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from stash.intake.drawn_pieces import Found

FOLDS = ("on fold", "PLACE ON FOLD", "au pli", "im Stoffbruch", "al doblez", "on the fold")
CUTS = (("cut 1", 1), ("CUT 2", 2), ("2x zuschneiden", 2), ("coupez 2 fois", 2), ("cut 1 pair", 2))
LEFT_OUT = "nothing says how many are cut: taken as one"


def titled(folder: Path, title: str, group: str = "") -> Found:
    shape = f'<path d="M0,0 H300 V200 H0 Z"><title>{title}</title></path>'
    body = f"<g><title>{group}</title>{shape}</g>" if group else shape
    [found] = look(folder, svg(body)).sheet.found
    return found


def written(folder: Path, lines: Sequence[str]) -> Found:
    texts = "".join(f'<text x="9" y="{20 * i}">{line}</text>' for i, line in enumerate(lines, 1))
    [found] = look(folder, svg(f'<path d="M0,0 H200 V300 H0 Z"/>{texts}')).sheet.found
    return found


def cut(found: Found) -> tuple[int, bool]:
    assert found.piece is not None
    return found.piece.copies, found.piece.on_fold


@pytest.mark.parametrize("lines", list(permutations(("FRONT", "CUT 1", "PLACE ON FOLD"))))
def test_a_half_stays_a_half_in_every_order_of_lines(tmp_path: Path, lines: list[str]) -> None:
    found = written(tmp_path, lines)
    assert (found.name, cut(found)) == ("FRONT", (1, True))


@pytest.mark.parametrize("lines", list(permutations(("FRONT", "CUT 2", "ON FOLD"))))
def test_two_halves_stay_two_in_every_order_of_lines(tmp_path: Path, lines: list[str]) -> None:
    assert cut(written(tmp_path, lines)) == (2, True)


@pytest.mark.parametrize(
    ("title", "wanted"),
    [
        ("front | on fold | cut 2", (2, True)),
        ("front | cut 2 | on fold", (2, True)),
        ("front on fold | cut 1", (1, True)),
        ("front | cut 1 on fold", (1, True)),
        ("front | cut 2 on fold", (2, True)),
        ("front | on fold", (1, True)),
        ("front | cut 2", (2, False)),
        ("front | cut 1 | not on fold", (1, False)),
        ("front | no fold | cut 2", (2, False)),
    ],
)
def test_the_bars_of_a_title_say_one_thing_each(
    tmp_path: Path, title: str, wanted: tuple[int, bool]
) -> None:
    found = titled(tmp_path, title)
    assert (cut(found), found.guessed) == (wanted, ())


@given(st.permutations(range(3)), st.sampled_from(FOLDS), st.sampled_from(CUTS))
def test_every_wording_in_every_order(order: list[int], fold: str, count: tuple[str, int]) -> None:
    parts = ("Vorderteil", fold, count[0])
    lines = [parts[i] for i in order]
    for texts in (lines, ["\n".join(lines)], [" | ".join(lines)]):
        heard = read_writing(texts, Said())
        assert (heard.said.copies, heard.said.on_fold) == (count[1], True)
        assert heard.names == ("Vorderteil",)
        assert heard.counts == (count[1],)


def test_a_count_or_fold_leaves_alike_alone() -> None:
    for texts in (["sleeve | alike | cut 2"], ["sleeve | cut 2 | alike"], ["alike", "cut 2"]):
        said = read_writing(texts, Said()).said
        assert (said.copies, said.mirrored) == (2, False)
    assert read_writing(["sleeve | cut 2"], Said()).said.mirrored


@pytest.mark.parametrize(
    "words",
    [
        *("not on fold", "no fold", "do not cut on fold", "nicht im Bruch", "pas au pli"),
        *("sans pli", "sin doblez", "CUT 1 NOT ON FOLD"),
    ],
)
def test_a_denied_fold_is_none(tmp_path: Path, words: str) -> None:
    assert cut(written(tmp_path, ("FRONT", "CUT 1", words))) == (1, False)


def test_no_allowance_on_the_fold_is_a_fold(tmp_path: Path) -> None:
    assert cut(written(tmp_path, ("FRONT", "CUT 1", "no seam allowance on fold"))) == (1, True)


@pytest.mark.parametrize("lines", [("ON FOLD", "NOT ON FOLD"), ("NOT ON FOLD", "ON FOLD")])
def test_a_fold_that_is_also_denied_is_doubted(tmp_path: Path, lines: tuple[str, ...]) -> None:
    found = written(tmp_path, ("FRONT", "CUT 1", *lines))
    assert cut(found) == (1, True)
    assert "it says both on the fold and not: taken to be on the fold" in found.guessed


def test_two_counts_are_doubted_and_one_twice_is_not(tmp_path: Path) -> None:
    found = written(tmp_path, ("FRONT", "CUT 2", "CUT 1 LINING"))
    assert "it says to cut 2 and 1: taken as 1" in found.guessed
    assert not any("it says" in told for told in written(tmp_path, ("CUT 2", "cut 2")).guessed)


def test_a_title_and_the_writing_in_it_are_one_label(tmp_path: Path) -> None:
    body = '<path d="M0,0 H300 V200 H0 Z"><title>front | on fold</title></path>'
    [found] = look(tmp_path, svg(body + '<text x="9" y="20">cut 2</text>')).sheet.found
    assert (cut(found), found.guessed) == ((2, True), ())
    [found] = look(tmp_path, svg(body + '<text x="9" y="20">not on fold</text>')).sheet.found
    assert cut(found) == (1, True)
    assert any("both on the fold and not" in told for told in found.guessed)


def test_what_a_group_says_a_piece_may_change_without_doubt(tmp_path: Path) -> None:
    assert cut(titled(tmp_path, "front | cut 2", "on fold | rib")) == (2, True)
    found = titled(tmp_path, "front | cut 2 | not on fold", "cut 1 on fold")
    assert (cut(found), found.guessed) == ((2, False), ())


def test_a_drawn_fold_outweighs_words_against_it(tmp_path: Path) -> None:
    body = """<path d="M0,0 H200 V300 H0 Z"/><text x="9" y="20">cut 1</text>
      <text x="9" y="40">not on fold</text><path d="M200,0 V300"><title>fold</title></path>"""
    [found] = look(tmp_path, svg(body)).sheet.found
    assert cut(found) == (1, True)
    assert any("it says not on fold" in told for told in found.guessed)


@pytest.mark.parametrize("lines", [("FRONT", "CUT 1", "FOLD"), ("FRONT", "CUT 1 FOLD")])
def test_fold_alone_is_taken_for_a_fold_and_told(tmp_path: Path, lines: tuple[str, ...]) -> None:
    found = written(tmp_path, lines)
    assert cut(found) == (1, True)
    assert "'FOLD' is written on it: taken to be cut on the fold" in found.guessed


def test_fold_alone_on_a_piece_without_a_straight_edge_is_told(tmp_path: Path) -> None:
    body = '<circle cx="200" cy="200" r="150"/>' + "".join(
        f'<text x="200" y="{200 + 20 * i}">{text}</text>'
        for i, text in enumerate(("DISC", "CUT 1", "FOLD"))
    )
    [found] = look(tmp_path, svg(body)).sheet.found
    assert cut(found) == (1, False)
    assert any("taken to be whole" in told for told in found.guessed)


def test_a_fold_line_is_one_to_turn_later_and_told(tmp_path: Path) -> None:
    """A waistband is printed with the line along which it is folded over (common practice)."""
    found = written(tmp_path, ("WAISTBAND", "CUT 1", "FOLD LINE"))
    assert (found.name, cut(found)) == ("WAISTBAND", (1, False))
    assert any("'FOLD LINE' is written on it" in told for told in found.guessed)


@pytest.mark.parametrize("lines", list(permutations(("FRONT", "CUT 2", "PLACE ON FOLD"))))
def test_the_same_in_dxf_and_pdf(tmp_path: Path, lines: tuple[str, ...]) -> None:
    document = new("R2000")
    document.units = 4
    space = document.modelspace()
    space.add_lwpolyline([(0, 0), (200, 0), (200, 300), (0, 300)], close=True)
    for i, line in enumerate(lines):
        space.add_text(line, height=5, dxfattribs={"insert": (20, 250 - 20 * i)})
    document.saveas(tmp_path / "front.dxf")
    texts = " ".join(
        f"BT /H 12 Tf 100 {400 - 30 * i} Td ({line}) Tj ET" for i, line in enumerate(lines)
    )
    (tmp_path / "front.pdf").write_bytes(pdf([f"60 60 300 450 re S {texts}"]))
    for name in ("front.dxf", "front.pdf"):
        [found] = look_at(tmp_path / name).sheet.found
        assert (found.name, cut(found), LEFT_OUT in found.guessed) == ("FRONT", (2, True), False)


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("on fold | cut 2", (2, True)),
        ("cut 2 | on fold", (2, True)),
        ("cut 2 | not on fold", (2, False)),
        ("cut 2 | cut 2", (2, False)),
    ],
)
def test_pieces_of_a_stash_folder_say_it_in_any_order(
    tmp_path: Path, words: str, wanted: tuple[int, bool]
) -> None:
    path = tmp_path / "own.svg"
    shape = f'<path d="M0,0 H300 V200 H0 Z"><title>front | {words}</title></path>'
    path.write_text(svg(shape), encoding="utf-8")
    [piece] = read_svg_pieces(path)
    assert (piece.copies, piece.on_fold) == wanted


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("cut 2 | cut 1", "'front' says both 'cut 2' and 'cut 1'"),
        ("not on fold | cut 1 on fold", "says both 'not on fold' and 'cut 1 on fold'"),
    ],
)
def test_a_contradiction_in_a_stash_folder_is_refused(
    tmp_path: Path, words: str, told: str
) -> None:
    path = tmp_path / "own.svg"
    shape = f'<path d="M0,0 H300 V200 H0 Z"><title>front | {words}</title></path>'
    path.write_text(svg(shape), encoding="utf-8")
    with pytest.raises(BadInputError) as caught:
        read_svg_pieces(path)
    assert told in caught.value.message
