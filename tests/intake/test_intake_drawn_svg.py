"""Any SVG as pieces: true size in every dialect, words in several languages, plain refusals."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from drawn_kit import extent, look, pieces, svg
from shapely.geometry import Point, Polygon

from stash.errors import BadInputError, NotFoundError
from stash.garment.pattern import Grain, Role
from stash.services.pattern_import import look_at

if TYPE_CHECKING:
    from pathlib import Path

CLONE = '<use xlink:href="#s" width="100" height="150" transform="scale(2)"/>'
FRONT = '<path id="front" d="M0,0 H200 V300 H0 Z"/>'


@pytest.mark.parametrize(
    ("size", "unit_mm"),
    # CSS Values and Units: 1 in = 25.4 mm = 96 px = 72 pt = 6 pc.
    [
        ('width="500mm" height="400mm" viewBox="0 0 500 400"', 1.0),
        ('width="50cm" height="40cm" viewBox="0 0 500 400"', 1.0),
        ('width="500mm" height="400mm" viewBox="0 0 5000 4000"', 0.1),
        ('width="20in" height="16in" viewBox="0 0 960 768"', 25.4 / 48),
        ('width="960" height="768"', 25.4 / 96),
        ('width="960px" height="768px" viewBox="0 0 480 384"', 2 * 25.4 / 96),
        ('width="720pt" height="576pt" viewBox="0 0 720 576"', 25.4 / 72),
        ('width="60pc" height="48pc" viewBox="0 0 60 48"', 25.4 / 6),
        # Laid into a wider field the drawing keeps its shape (SVG 1.1, 7.8).
        ('width="900mm" height="400mm" viewBox="0 0 500 400"', 1.0),
        ('width="1000mm" height="400mm" viewBox="0 0 500 400" preserveAspectRatio="none"', None),
    ],
)
def test_every_scale_is_millimetres(tmp_path: Path, size: str, unit_mm: float | None) -> None:
    piece = pieces(look(tmp_path, svg(FRONT, size)))["front"]
    wanted = (300.0, 400.0) if unit_mm is None else (300 * unit_mm, 200 * unit_mm)
    assert extent(piece) == pytest.approx(wanted, abs=0.01)


@pytest.mark.parametrize(
    ("body", "wanted"),
    [
        (f'<g transform="translate(30 40)"><g transform="scale(.5)">{FRONT}</g></g>', (150, 100)),
        (f'<g transform="translate(400,0) scale(-1,1)">{FRONT}</g>', (300, 200)),
        (f'<g transform="rotate(90 50 50)">{FRONT}</g>', (200, 300)),
        (f'<g transform="matrix(0 2 -2 0 700 0)">{FRONT}</g>', (400, 600)),
        (
            f'<svg x="9" y="9" width="100" height="100" viewBox="0 0 400 400">{FRONT}</svg>',
            (75, 50),
        ),
        (f'<defs>{FRONT}</defs><use href="#front" x="300" y="9"/>', (300, 200)),
        (
            f'<symbol id="s" viewBox="0 0 200 300">{FRONT}</symbol>{CLONE}',
            (300, 200),
        ),
        ('<g transform="skewX(45)"><rect id="front" width="50" height="100"/></g>', (100, 150)),
    ],
)
def test_places_within_places(tmp_path: Path, body: str, wanted: tuple[float, float]) -> None:
    assert extent(pieces(look(tmp_path, svg(body)))["front"]) == pytest.approx(wanted, abs=0.01)


def test_a_mirrored_piece_is_the_mirror_image(tmp_path: Path) -> None:
    corners = "M0,0 H200 V300 Z"
    plain = pieces(look(tmp_path, svg(f'<path id="tip" d="{corners}"/>')))["tip"]
    turned = pieces(look(tmp_path, svg(f'<path id="tip" transform="scale(-1 1)" d="{corners}"/>')))[
        "tip"
    ]
    image = Polygon([(x, 200 - y) for x, y in plain.outline])
    assert Polygon(turned.outline).symmetric_difference(image).area == pytest.approx(0, abs=0.1)
    assert Polygon(turned.outline).symmetric_difference(Polygon(plain.outline)).area > 1000


def test_curves_stray_no_further_than_a_fifth_of_a_millimetre(tmp_path: Path) -> None:
    body = """<circle id="disc" cx="200" cy="200" r="150"/>
      <path id="lens" d="M400,100 A150,150 0 0 1 400,400 A150,150 0 0 1 400,100 Z"/>"""
    for name, piece in pieces(look(tmp_path, svg(body))).items():
        middles = [
            ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
            for a, b in zip(piece.outline, piece.outline[1:] + piece.outline[:1], strict=True)
        ]
        assert all(abs(math.dist(p, (150, 150)) - 150) <= 0.2 for p in middles), name


@pytest.mark.parametrize("scale", [1, 40])
def test_beziers_stray_no_further_either(tmp_path: Path, scale: int) -> None:
    """Against the curve itself (Bernstein form), also where the drawing is made larger."""
    a, b, c, d = ((v / scale, w / scale) for v, w in ((0, 90), (90, -30), (200, 250), (300, 0)))
    path = f"M{a[0]},{a[1]} C{b[0]},{b[1]} {c[0]},{c[1]} {d[0]},{d[1]} L{d[0]},{400 / scale} L0,"
    body = f'<path d="{path}{400 / scale} Z"><title>wave | cut 1</title></path>'
    ring = pieces(look(tmp_path, svg(f'<g transform="scale({scale})">{body}</g>')))["wave"].outline
    along = [
        tuple(
            scale
            * ((1 - t) ** 3 * p + 3 * (1 - t) ** 2 * t * q + 3 * (1 - t) * t * t * r + t**3 * s)
            for p, q, r, s in zip(a, b, c, d, strict=True)
        )
        for t in (step / 500 for step in range(501))
    ]
    top = min(400.0, *(y for _, y in along))
    line = Polygon(ring).exterior
    assert max(line.distance(Point(x, y - top)) for x, y in along) <= 0.2 + 0.01


@pytest.mark.parametrize(
    ("words", "copies", "on_fold", "role"),
    [
        ("cut 2", 2, False, Role.MAIN),
        ("cut 1 on fold", 1, True, Role.MAIN),
        ("Cut 1 pair lining", 2, False, Role.LINING),
        ("coupe 2", 2, False, Role.MAIN),
        ("couper 1 fois au pli", 1, True, Role.MAIN),
        ("coupez 2 fois doublure", 2, False, Role.LINING),
        ("1x im Stoffbruch", 1, True, Role.MAIN),
        ("2x zuschneiden", 2, False, Role.MAIN),
        ("2x Einlage zuschneiden", 2, False, Role.INTERFACING),
        ("cortar 2", 2, False, Role.MAIN),
        ("cortar 1 al doblez", 1, True, Role.MAIN),
        ("tagliare 2 volte fodera", 2, False, Role.LINING),
    ],
)
def test_words_on_a_piece(
    tmp_path: Path, words: str, copies: int, on_fold: bool, role: Role
) -> None:
    body = f'{FRONT}<text x="30" y="90">{words}</text>'
    piece = pieces(look(tmp_path, svg(body)))["front"]
    assert (piece.copies, piece.on_fold, piece.role) == (copies, on_fold, role)


def test_names_come_from_titles_labels_layers_and_writing(tmp_path: Path) -> None:
    box = "<path d='M{0},0 h50 v80 h-50 z'>{1}</path>"
    body = (
        box.format(0, "<title>sleeve, cut 2</title>")
        + f"<g id='cuff'>{box.format(100, '')}</g>"
        + box.format(200, "")
        + "<text x='210' y='20'>Rücken<tspan x='210' dy='9'>1x zuschneiden</tspan></text>"
        + "<path id='path3812' d='M300,0 h50 v80 h-50 z'/>"
    )
    found = look(tmp_path, svg(body)).sheet.found
    assert [one.name for one in found] == [["sleeve", " cut 2"][0], "cuff", "Rücken", "piece 4"]
    assert "it has no name" in found[3].guessed


def test_the_grain_line_turns_the_piece(tmp_path: Path) -> None:
    line = '<path d="M{0} L{1}"><title>grainline</title></path>'
    for ends, wanted in (
        (("100,20", "100,280"), (300, 200)),
        (("20,150", "180,150"), (200, 300)),
        # At 45 degrees a square of 200 x 300 is as long as its bias extent.
        (("50,50", "150,150"), (500 / math.sqrt(2), 500 / math.sqrt(2))),
    ):
        piece = pieces(look(tmp_path, svg(FRONT + line.format(*ends))))["front"]
        assert extent(piece) == pytest.approx(wanted, abs=0.02)
        assert piece.grain is Grain.LENGTHWISE
    unsaid = look(tmp_path, svg(FRONT), grain="across")
    assert extent(pieces(unsaid)["front"]) == (200, 300)
    assert not any("grain" in text for text in unsaid.sheet.found[0].guessed)


def test_an_arrow_may_be_the_grain_line(tmp_path: Path) -> None:
    arrow = '<path d="M20,150 L180,150 L172,145 M180,150 L172,155"/>'
    found = look(tmp_path, svg(FRONT + arrow)).sheet.found[0]
    assert found.piece is not None
    assert extent(found.piece) == (200, 300)
    assert any("longest straight line" in text for text in found.guessed)


def test_a_fold_line_says_which_edge(tmp_path: Path) -> None:
    body = f"""{FRONT}<path d="M100,20 V280"><title>grain</title></path>
      <path d="M200,0 V300"><title>fold</title></path>"""
    piece = pieces(look(tmp_path, svg(body)))["front"]
    assert piece.on_fold
    assert {y for _, y in piece.outline} == {0, 200}
    sloped = (
        FRONT.replace("M0,0 H200", "M40,0 H200")
        + '<path d="M200,0 V300"><title>fold</title></path>'
    )
    half = pieces(look(tmp_path, svg(sloped)))["front"]
    # The sloping side is away from the fold.
    assert sorted(x for x, y in half.outline if y == 0) == [0, 300]


def test_sizes_in_layers_are_told_apart(tmp_path: Path) -> None:
    layer = "<g id='{0}'><path d='M0,0 h{1} v300 h-{1} z'><title>front</title></path></g>"
    body = "".join(layer.format(name, wide) for name, wide in (("S", 180), ("M", 200), ("L", 220)))
    body += "<path id='pocket' d='M400,0 h90 v99 h-90 z'/><path d='M90,20 V280'/>"
    every = look(tmp_path, svg(body))
    assert every.sheet.sizes == ("S", "M", "L")
    assert sorted((f.name, f.size) for f in every.sheet.found) == [
        ("front", "L"),
        ("front", "M"),
        ("front", "S"),
        ("pocket", ""),
    ]
    one = look(tmp_path, svg(body), size="M")
    assert [(f.name, f.size) for f in one.sheet.found] == [("front", "M"), ("pocket", "")]
    assert extent(pieces(one)["front"]) == (300, 200)
    with pytest.raises(BadInputError, match="no size 'XL'") as caught:
        look(tmp_path, svg(body), size="XL")
    assert "S, M, L" in caught.value.hint


def test_outlines_drawn_twice_are_one_piece(tmp_path: Path) -> None:
    again = '<path d="M0.2,0 H200 V300.1 H0 Z"/>'
    found = look(tmp_path, svg(FRONT + again + FRONT.replace("front", "path9")))
    assert [one.name for one in found.sheet.found] == ["front"]
    assert any("2 outlines are drawn twice" in note for note in found.sheet.notes)


def test_lines_inside_a_piece_are_not_taken(tmp_path: Path) -> None:
    seam = '<path d="M10,10 H190 V290 H10 Z"/>'
    found = look(tmp_path, svg(FRONT + seam))
    assert [one.name for one in found.taken] == ["front"]
    assert len(look(tmp_path, svg(FRONT + seam), "1-2").taken) == 2


def test_a_frame_around_pieces_is_no_piece(tmp_path: Path) -> None:
    frame = '<rect x="-5" y="-5" width="700" height="500"/>'
    other = '<path id="back" d="M300,0 H500 V300 H300 Z"/>'
    found = look(tmp_path, svg(frame + FRONT + other))
    assert [one.name for one in found.sheet.found] == ["front", "back"]
    assert any("frame" in note for note in found.sheet.notes)


@pytest.mark.parametrize("gap", [0.0, 0.4, 1.9])
def test_small_gaps_are_closed_and_said(tmp_path: Path, gap: float) -> None:
    parts = f'<path d="M0,{gap} V300 H200"/><path d="M0,0 H200 V300"/>'
    found = look(tmp_path, svg(f"<g id='front'>{parts}</g>")).sheet.found
    assert len(found) == 1
    assert found[0].piece is not None
    assert extent(found[0].piece) == pytest.approx((300, 200), abs=0.01)
    assert any("gap of" in text for text in found[0].guessed) == (gap > 0.05)


def test_wide_gaps_are_refused_with_their_place(tmp_path: Path) -> None:
    body = f"{FRONT}<path id='back' d='M300,12 V300 H500 V0 H300'/>"
    found = look(tmp_path, svg(body)).sheet.found[1]
    assert found.piece is None
    assert "12.0 mm are missing between 300 x 12 mm and 300 x 0 mm" in found.wrong[0]


@pytest.mark.parametrize("name", ["", "id='back'"])
def test_an_outline_without_its_longest_side_is_told_of(tmp_path: Path, name: str) -> None:
    """Three fifths of what is drawn are one straight side; it is no arrow for all that."""
    body = f"{FRONT}<path {name} d='M300,0 h90 v300 h-90'/>"
    found = look(tmp_path, svg(body)).sheet.found[1]
    assert found.piece is None
    assert "300.0 mm are missing between 300 x 0 mm and 300 x 300 mm" in found.wrong[0]


def test_an_outline_that_crosses_itself_says_where(tmp_path: Path) -> None:
    found = look(tmp_path, svg('<path id="bow" d="M0,0 L200,300 V0 L0,300 Z"/>')).sheet.found[0]
    assert found.wrong == ("its outline crosses itself near 100 x 150 mm",)


@pytest.mark.parametrize("words", ["test square 5 cm", "Testquadrat 5cm", "carré test 50 mm"])
def test_the_test_square_mends_the_scale(tmp_path: Path, words: str) -> None:
    square = f'<rect x="600" y="400" width="40" height="40"><title>{words}</title></rect>'
    found = look(tmp_path, svg(FRONT + square))
    assert [one.name for one in found.sheet.found] == ["front"]
    assert extent(pieces(found)["front"]) == pytest.approx((375, 250), abs=0.01)
    assert any("40.0 mm and should measure 50 mm" in note for note in found.sheet.notes)


def test_the_size_of_the_test_square_may_be_typed(tmp_path: Path) -> None:
    square = (
        '<rect x="600" y="400" width="50" height="50"/><text x="605" y="420">test square</text>'
    )
    true = look(tmp_path, svg(FRONT + square), square="5 cm")
    assert any("as it says" in note for note in true.sheet.notes)
    inches = look(tmp_path, svg(FRONT + square), square="2 in")
    assert extent(pieces(inches)["front"])[0] == pytest.approx(300 * 50.8 / 50, abs=0.01)
    with pytest.raises(BadInputError, match="no square"):
        look(tmp_path, svg(FRONT), square="5 cm")


def test_a_file_without_a_size_says_so(tmp_path: Path) -> None:
    found = look(tmp_path, svg(FRONT, 'viewBox="0 0 500 400"'))
    assert extent(pieces(found)["front"])[0] == pytest.approx(300 * 25.4 / 96, abs=0.01)
    assert any("does not say how large" in note for note in found.sheet.notes)


def test_our_own_titles_say_everything(tmp_path: Path) -> None:
    body = """<path d="M0,0 H300 V90 H0 Z">
      <title>yoke | cut 2 alike | grain either | lining | view A, B | tolerance 3</title></path>
      <circle cx="80" cy="20" r="2"><title>match</title></circle>"""
    yoke = pieces(look(tmp_path, svg(body)))["yoke"]
    assert (yoke.copies, yoke.mirrored, yoke.grain) == (2, False, Grain.EITHER)
    assert (yoke.role, yoke.views, yoke.tolerance) == (Role.LINING, ("A", "B"), 3)
    assert yoke.match == pytest.approx((80, 20), abs=0.01)
    assert extent(yoke) == (300, 90)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (svg(""), "holds no lines"),
        (svg('<path d="M0,0 L9,9"/>'), "no closed outline"),
        ("<html/>", "not an SVG"),
        ("<svg><path", "well-formed"),
        (svg('<path transform="twist(3)" d="M0,0 H9 V9 Z"/>'), "transform cannot be read"),
        (svg('<path transform="scale(1e9)" d="M0,0 H9 V9 Z"/>'), "farther than 1 km"),
    ],
)
def test_files_that_hold_no_pieces(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(BadInputError, match=told) as caught:
        look(tmp_path, text)
    assert caught.value.hint


def test_other_files_and_missing_ones(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError, match="no file"):
        look_at(tmp_path / "gone.svg")
    with pytest.raises(BadInputError, match="no drawing that can be read"):
        look_at(tmp_path / "pattern.docx")


@pytest.mark.parametrize(
    ("pick", "told"), [("9", "no piece 9"), ("x", "picks nothing"), ("1,,2", "picks nothing")]
)
def test_picks_that_mean_nothing(tmp_path: Path, pick: str, told: str) -> None:
    with pytest.raises(BadInputError, match=told):
        look(tmp_path, svg(FRONT), pick)
