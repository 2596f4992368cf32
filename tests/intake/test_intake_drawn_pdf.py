"""Vector outlines of PDFs (ISO 32000-1), page by page and put together."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

import pytest
from drawn_kit import extent, pdf, pieces

from stash.errors import BadInputError, NotFoundError
from stash.services.pattern_import import Said, look_at

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.pattern_import import Look

MM = 72 / 25.4
"""Points in a millimetre: a unit of user space is 1/72 inch (ISO 32000-1, 8.3.2.3)."""
A4 = (210 * MM, 297 * MM)


def _seen(folder: Path, data: bytes, pick: str = "", **said: str) -> Look:
    path = folder / "pattern.pdf"
    path.write_bytes(data)
    return look_at(path, Said(**said), pick)


def _mm(text: str) -> str:
    """A description in millimetres."""
    return f"q {MM} 0 0 {MM} 0 0 cm {text} Q"


def _written(text: str, x: float, y: float) -> str:
    return f"BT /H 4 Tf {x} {y} Td ({text}) Tj ET"


def test_a_sheet_is_read_at_its_size(tmp_path: Path) -> None:
    text = _mm(f"10 10 150 200 re S {_written('Vorderteil', 30, 90)} {_written('2x', 30, 80)}")
    (found,) = _seen(tmp_path, pdf([text], size=A4)).sheet.found
    assert found.piece is not None
    assert (found.name, found.piece.copies) == ("Vorderteil", 2)
    assert extent(found.piece) == pytest.approx((200, 150), abs=0.02)


def test_curves_transforms_and_forms(tmp_path: Path) -> None:
    # A circle of four Bézier curves, k = 0.5523 (common practice), in a form drawn twice as large.
    k = 27.615
    circle = (
        f"50 0 m 50 {k} {k} 50 0 50 c -{k} 50 -50 {k} -50 0 c "
        f"-50 -{k} -{k} -50 0 -50 c {k} -50 50 -{k} 50 0 c h S"
    )
    form = ("/BBox [-60 -60 60 60] /Matrix [1 0 0 1 0 0]", circle)
    data = pdf([_mm("q 1.6 0 0 1.6 100 150 cm /F0 Do Q")], size=A4, forms=[form])
    (found,) = _seen(tmp_path, data).sheet.found
    assert found.piece is not None
    assert extent(found.piece) == pytest.approx((160, 160), abs=0.05)


def test_a_turned_page_and_a_larger_unit(tmp_path: Path) -> None:
    text = _mm("10 10 150 200 re S")
    turned = _seen(tmp_path, pdf([text], size=A4, page_words="/Rotate 90"))
    assert extent(pieces(turned)["piece 1"]) == pytest.approx((150, 200), abs=0.02)
    large = _seen(tmp_path, pdf([text], size=A4, page_words="/UserUnit 2"))
    assert extent(pieces(large)["piece 1"]) == pytest.approx((400, 300), abs=0.02)


def test_clipping_paths_are_not_drawn(tmp_path: Path) -> None:
    text = _mm("0 0 210 297 re W n 10 10 150 200 re S")
    assert len(_seen(tmp_path, pdf([text], size=A4)).sheet.found) == 1


def test_layers_are_sizes(tmp_path: Path) -> None:
    parts = [f"/OC /L{i} BDC 10 10 {150 + 10 * i} 200 re S EMC" for i in range(3)]
    data = pdf([_mm(" ".join(parts))], size=A4, layers=("size 36", "38", "Größe 40"))
    assert _seen(tmp_path, data).sheet.sizes[:2] == ("36", "38")
    (found,) = _seen(tmp_path, data, size="38").taken
    assert found.piece is not None
    assert extent(found.piece) == pytest.approx((200, 160), abs=0.02)


def test_the_test_square_mends_the_scale(tmp_path: Path) -> None:
    text = f"20 20 100 200 re S 150 20 30 30 re S {_written('test square 5 cm', 151, 30)}"
    found = _seen(tmp_path, pdf([_mm(text)], size=A4))
    assert extent(pieces(found)["piece 1"]) == pytest.approx((1000 / 3, 500 / 3), abs=0.05)
    assert any("measures 30.0 mm and should measure 50 mm" in note for note in found.sheet.notes)


OUTLINE = [(20, 30), (330, 60), (300, 420), (180, 500), (25, 480)]
"""Millimetres on the whole sheet, y up: over 2 x 2 pages of 190 x 277."""


def _pages(
    rows: int, columns: int, *, frame: bool, margin: float = 10.0, overlap: float = 0.0
) -> list[str]:
    """The sheet cut into A4 pages, row by row from the top."""
    wide, high = 210 - 2 * margin - overlap, 297 - 2 * margin - overlap
    line = " l ".join(f"{x} {y}" for x, y in OUTLINE)
    pages = []
    for row, column in product(range(rows), range(columns)):
        x = margin - column * wide
        y = margin + overlap - (rows - 1 - row) * high
        border = f"{margin} {margin} {wide + overlap} {high + overlap} re S " if frame else ""
        clip = f"{margin} {margin} {wide + overlap} {high + overlap} re W n "
        pages.append(_mm(f"{border}{clip}1 0 0 1 {x} {y} cm {line.replace(' l', ' m', 1)} l h S"))
    return pages


def _check_outline(found: Look) -> None:
    (one,) = found.taken
    assert one.piece is not None, one.wrong
    assert extent(one.piece) == pytest.approx((470, 310), abs=0.3)
    # The area by the shoelace formula over the five corners.
    ring = OUTLINE
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True))
    mine = one.piece.outline
    other = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(mine, mine[1:] + mine[:1], strict=True))
    assert abs(other) == pytest.approx(abs(twice), rel=1e-4)


def test_framed_pages_find_their_places(tmp_path: Path) -> None:
    cover = _mm(_written("how to print", 20, 200) + " 20 100 m 60 100 l S")
    found = _seen(tmp_path, pdf([cover, *_pages(2, 2, frame=True)], size=A4))
    _check_outline(found)
    assert any("2 rows of 2" in note for note in found.sheet.notes)


def test_margins_and_overlaps_may_be_typed(tmp_path: Path) -> None:
    data = pdf(_pages(2, 2, frame=False, margin=15, overlap=5), size=A4)
    _check_outline(_seen(tmp_path, data, tiles="2x2", margin="15 mm", overlap="5 mm"))
    _check_outline(_seen(tmp_path, data, margin="15 mm", overlap="5 mm"))


def test_pages_that_do_not_meet_are_left_apart(tmp_path: Path) -> None:
    pages = [_mm(f"20 20 {100 + 10 * i} 200 re S") for i in range(3)]
    found = _seen(tmp_path, pdf(pages, size=A4))
    assert len(found.taken) == 3
    assert any("could not be put together" in note for note in found.sheet.notes)


def test_more_places_than_pages_are_refused(tmp_path: Path) -> None:
    data = pdf(_pages(2, 2, frame=True), size=A4)
    with pytest.raises(BadInputError, match="not 3 x 2"):
        _seen(tmp_path, data, tiles="3x2")
    with pytest.raises(BadInputError, match="no grid"):
        _seen(tmp_path, data, tiles="three")
    with pytest.raises(BadInputError, match="leave nothing"):
        _seen(tmp_path, data, margin="20 cm")


def test_an_outline_that_does_not_close_says_where(tmp_path: Path) -> None:
    text = _mm("10 10 m 160 10 l 160 210 l 10 210 l 10 17 l S")
    (found,) = _seen(tmp_path, pdf([text], size=A4)).sheet.found
    assert found.piece is None
    assert "7.0 mm are missing" in found.wrong[0]


def test_files_without_outlines(tmp_path: Path) -> None:
    with pytest.raises(BadInputError, match="draws no lines"):
        _seen(tmp_path, pdf([_written("only words", 9, 9)]))
    with pytest.raises(BadInputError, match="not a PDF"):
        _seen(tmp_path, b"hello")
    with pytest.raises(BadInputError, match="damaged"):
        _seen(tmp_path, b"%PDF-1.7\n1 0 obj << /Type /Catalog")
    with pytest.raises(NotFoundError):
        look_at(tmp_path / "gone.pdf")
