"""Drawn pieces: true size in every dialect, clear words when something is wrong."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from shapely.geometry import Polygon

from stash.errors import BadInputError, NotFoundError
from stash.garment.pattern import Grain, Role
from stash.intake.svg_pieces import read_svg_pieces

if TYPE_CHECKING:
    from pathlib import Path

    from stash.garment.pattern import Piece

NS = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
BOX = '<path d="M0,0 H300 V200 H0 Z"><title>front | cut 2</title></path>'


YOKE = '<path d="M0,0 H50 V50 H0 Z"><title>yoke</title></path>'


def _read(folder: Path, svg: str) -> tuple[Piece, ...]:
    path = folder / "piece.svg"
    path.write_text(svg, encoding="utf-8")
    return read_svg_pieces(path)


def _sheet(body: str, size: str = 'width="500mm" height="400mm" viewBox="0 0 500 400"') -> str:
    return f"<svg {NS} {size}>{body}</svg>"


def _extent(piece: Piece) -> tuple[float, float]:
    left, low, right, high = Polygon(piece.outline).bounds
    return right - left, high - low


@pytest.mark.parametrize(
    ("size", "unit_mm"),
    # CSS Values and Units: 1 in = 25.4 mm = 96 px = 72 pt; the viewBox is stretched to it.
    [
        ('width="500mm" height="400mm" viewBox="0 0 500 400"', 1.0),
        ('width="50cm" height="40cm" viewBox="0 0 500 400"', 1.0),
        ('width="500mm" height="400mm" viewBox="0 0 5000 4000"', 0.1),
        ('width="10in" height="8in" viewBox="0 0 10 8"', 25.4),
        ('width="960" height="768"', 25.4 / 96),
        ('width="960px" height="768px" viewBox="0 0 480 384"', 2 * 25.4 / 96),
        ('width="720pt" height="576pt" viewBox="0 0 720 576"', 25.4 / 72),
    ],
)
def test_every_scale_is_read_as_millimetres(tmp_path: Path, size: str, unit_mm: float) -> None:
    (piece,) = _read(tmp_path, _sheet(BOX, size))
    assert _extent(piece) == pytest.approx((300 * unit_mm, 200 * unit_mm), rel=1e-4)


def test_nested_transforms_are_carried_out(tmp_path: Path) -> None:
    body = f'<g transform="translate(30,40)"><g transform="rotate(90) scale(0.5)">{BOX}</g></g>'
    (piece,) = _read(tmp_path, _sheet(body))
    assert _extent(piece) == pytest.approx((100, 150), abs=0.01)


def test_curves_are_followed_closely(tmp_path: Path) -> None:
    circle = '<circle cx="100" cy="100" r="80"><title>disc</title></circle>'
    (piece,) = _read(tmp_path, _sheet(circle))
    assert Polygon(piece.outline).area == pytest.approx(math.pi * 80**2, rel=0.01)
    assert all(abs(math.dist(point, (80, 80)) - 80) < 0.05 for point in piece.outline)
    assert len(piece.outline) < 80


def test_titles_say_how_a_piece_is_cut(tmp_path: Path) -> None:
    body = """
    <g><title>size M | rib</title>
      <rect width="300" height="60"><title>neckband | cut 1 | grain crosswise</title></rect>
      <g><title>size L</title>
        <rect width="310" height="60"><title>cuff | cut 2 alike | view A, B</title></rect>
      </g>
    </g>
    <g><title>notes</title><path d="M0,0 L10,10"/></g>
    <text x="3" y="4">grain</text>
    <polygon points="0,0 200,0 200,90 0,100"><title>back | cut 1 on fold</title></polygon>
    """
    pieces = {piece.name: piece for piece in _read(tmp_path, _sheet(body))}
    band, cuff, back = (pieces[name] for name in ("neckband", "cuff", "back"))
    assert (band.size, band.role, band.grain, band.copies) == ("M", Role.RIB, Grain.CROSSWISE, 1)
    assert (cuff.size, cuff.copies, cuff.mirrored, cuff.views) == ("L", 2, False, ("A", "B"))
    assert cuff.role is Role.RIB
    assert (back.on_fold, back.copies, back.role, back.size) == (True, 1, Role.MAIN, "")
    assert sorted(y for _, y in back.outline)[:2] == [0, 0]


def test_a_small_shape_marks_where_a_piece_meets_the_print(tmp_path: Path) -> None:
    body = """
    <rect x="20" y="10" width="300" height="80"><title>yoke | cut 2 | tolerance 3</title></rect>
    <g transform="translate(100,30)"><circle r="2"><title>match</title></circle></g>
    <polygon points="0,200 200,200 200,290 0,290"><title>back | cut 1 on fold</title></polygon>
    """
    yoke, back = _read(tmp_path, _sheet(body))
    assert yoke.match == pytest.approx((80, 20), abs=0.01)
    assert (yoke.tolerance, back.tolerance, back.match) == (3, 0, None)


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ('<path d="M0,0 L300,0 L300,200 L0,200"><title>sleeve</title></path>', "not closed"),
        ('<polyline points="0,0 9,0 9,9"><title>sleeve</title></polyline>', "not closed"),
        ('<path d="M0,0 L300,200 L300,0 L0,200 Z"><title>sleeve</title></path>', "crosses itself"),
        ('<path d="M0,0 L300,0 Z"><title>sleeve</title></path>', "no area"),
        (
            '<path d="M0,0 H50 V50 H0 Z M60,0 H99 V50 H60 Z"><title>sleeve</title></path>',
            "several parts",
        ),
        ('<path id="p7" d="M0,0 H50 V50 H0 Z"/>', "p7 has no title"),
        ('<path d="M0,0 H50 V50 H0 Z"><title>sleeve | cut two</title></path>', "'cut two'"),
        (
            '<path d="M0,0 H50 V50 H0 Z"><title>sleeve | cut 0</title></path>',
            "'cut 0'",
        ),
        (
            f'{YOKE}<circle cx="80" cy="9" r="2"><title>match</title></circle>',
            "80 x 9 mm is not in one piece",
        ),
        (
            YOKE + 2 * '<circle cx="8" cy="9" r="2"><title>match</title></circle>',
            "'yoke' has 2 match points",
        ),
        ('<path d="M0,0 H50 V50 H0 Z"><title>yoke | tolerance x</title></path>', "'tolerance x'"),
        (
            '<path d="M0,9 L50,0 L60,90 Z"><title>front | cut 1 on fold</title></path>',
            "no straight upper edge",
        ),
        ('<path d="M0,0 H300 V2 H0 Z"><title>hair</title></path>', "'hair' is nowhere 3 mm wide"),
        ("<text>nothing</text>", "holds no pieces"),
        (
            '<g transform="scale(1e9)"><path d="M0,0 H50 V50 H0 Z"><title>x</title></path></g>',
            "not of this world",
        ),
    ],
)
def test_a_piece_that_cannot_be_used_is_named(tmp_path: Path, body: str, told: str) -> None:
    with pytest.raises(BadInputError) as caught:
        _read(tmp_path, _sheet(body))
    assert told in caught.value.message
    assert caught.value.message.startswith("piece.svg")
    assert "\n" not in caught.value.message
    assert caught.value.hint


@pytest.mark.parametrize(
    ("svg", "told"),
    [
        (_sheet(BOX, 'viewBox="0 0 500 400"'), "does not say how large"),
        (_sheet(BOX, 'width="100%" height="100%"'), "does not say how large"),
        (_sheet(BOX, 'width="0mm" height="10mm"'), "does not say how large"),
        (f"<svg {NS}><path>", "line 1: this is not well-formed"),
        ("<html><body/></html>", "not an SVG drawing"),
        ("", "not well-formed"),
    ],
)
def test_a_file_that_is_no_drawing_is_told(tmp_path: Path, svg: str, told: str) -> None:
    with pytest.raises(BadInputError, match=told):
        _read(tmp_path, svg)


def test_an_entity_bomb_is_refused_before_it_is_parsed(tmp_path: Path) -> None:
    bomb = '<!DOCTYPE lolz [<!ENTITY a "ha">' + "".join(
        f'<!ENTITY {chr(98 + i)} "{f"&{chr(97 + i)};" * 10}">' for i in range(12)
    )
    with pytest.raises(BadInputError, match="document type"):
        _read(tmp_path, f"{bomb}]>" + _sheet(f"<text>&m;</text>{BOX}"))


def test_an_entity_bomb_in_another_encoding_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "wide.svg"
    path.write_bytes('<!DOCTYPE x [<!ENTITY a "b">]><svg/>'.encode("utf-16"))
    with pytest.raises(BadInputError, match="not UTF-8"):
        read_svg_pieces(path)


@pytest.mark.parametrize(
    "body",
    [
        '<image width="9" height="9" xlink:href="http://example.invalid/a.png"/>',
        '<use xlink:href="other.svg#front"/>',
        '<use href="#front"/>',
        '<linearGradient href="file:///etc/passwd"/>',
        "<script>1</script>",
    ],
)
def test_nothing_outside_the_file_is_followed(tmp_path: Path, body: str) -> None:
    with pytest.raises(BadInputError, match=r"not read|not followed"):
        _read(tmp_path, _sheet(BOX + body))


def test_groups_without_end_are_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInputError, match="cannot be read"):
        _read(tmp_path, _sheet("<g>" * 5000 + BOX + "</g>" * 5000))


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError, match="no file"):
        read_svg_pieces(tmp_path / "gone.svg")
