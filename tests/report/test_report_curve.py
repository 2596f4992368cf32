"""The width curve drawn: in characters, as SVG and as JSON."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations, pairwise
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest

from stash.cli import json_keys
from stash.config import System
from stash.pairing import blocked
from stash.report.curve_cells import MARGIN, draw_curve, frame_of, mark
from stash.report.curve_plain import curve_json
from stash.report.curve_svg import HIGH, LEFT, TOP, WIDE, curve_svg
from stash.report.curve_text import curve_text
from stash.services.cloths import add_cloth
from stash.services.curve import width_curve
from stash.services.makes import add_make
from stash.services.patterns import add_chart_row, add_pattern
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.pairing.width_curve import WidthCurve
    from stash.services.stash import Stash

SVG = "{http://www.w3.org/2000/svg}"
SIZES = ((80, 24), (60, 16), (120, 40))


@pytest.fixture
def curve(empty_stash: Stash, monkeypatch: pytest.MonkeyPatch) -> WidthCurve:
    """Trousers known by their chart alone, at two widths, and three cloths; there is no block."""
    monkeypatch.setattr(blocked, "block_of", lambda *_: ())
    add_pattern(empty_stash, {"name": "pier trousers", "kind": "tailored trousers", "sizes": "40"})
    for width, amount in (("115 cm", "2.6 m"), ("140 cm", "1.8 m")):
        row = {"size": "40", "width": width, "amount": amount, "with_nap": "no"}
        add_chart_row(empty_stash, "pier trousers", row)
    add_make(empty_stash, {"name": "office pair", "pattern": "pier trousers", "size": "40"})
    for name, width, length, nap in (
        ("blue <twill> & co", "150 cm", "2.5 m", "no"),
        ("grey flannel", "120 cm", "1.9 m", "no"),
        ("green cord", "145 cm", "1.9 m", "yes"),
    ):
        texts = {"name": name, "structure": "woven", "width": width, "length": length}
        add_cloth(empty_stash, texts | {"washed": "yes", "nap": nap})
    return width_curve(empty_stash, "office pair")


def keys(part: dict[str, str]) -> set[str]:
    return {key.strip() for written in part for key in written.split(",")}


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_it_fits_its_room(curve: WidthCurve, size: tuple[int, int]) -> None:
    rows = draw_curve(curve, *size, System.METRIC)
    assert len(rows) <= size[1]
    assert max(len(row) for row in rows) <= size[0]


def test_the_line_only_goes_down(curve: WidthCurve) -> None:
    bare = replace(curve, dots=())
    rows = [
        "".join(c.char for c in row[MARGIN:]) for row in draw_curve(bare, 80, 24, System.METRIC)
    ]
    level = [
        row
        for column in range(80 - MARGIN)
        for row, text in enumerate(rows[:-2])  # the last two are the axis
        if text[column : column + 1] in ("─", "╌", "◆", "╰")
    ]
    assert level == sorted(level)  # rows are counted from the top
    assert len(set(level)) == 2  # two columns of the chart: two levels


def test_dots_stand_at_their_width_and_length(curve: WidthCurve) -> None:
    columns, rows = 80, 24
    cells = draw_curve(curve, columns, rows, System.METRIC)
    frame = frame_of(curve)
    for index, dot in enumerate(curve.dots):
        (at,) = [(x, y) for y, row in enumerate(cells) for x, c in enumerate(row) if c.dot == index]
        span = frame.right - frame.left
        across = frame.left + (at[0] - MARGIN) / (columns - MARGIN - 1) * span
        up = (1 - at[1] / (rows - 3)) * frame.top
        assert across == pytest.approx(dot.at.mm, abs=span / (columns - MARGIN - 1))
        assert up == pytest.approx(dot.pairing.have.mm, abs=frame.top / (rows - 3))


def test_capitals_are_enough(curve: WidthCurve) -> None:
    """Grey flannel has 1.9 m of the 2.6 m charted at 115 cm; twill 2.5 m of 1.8 m."""
    marks = {dot.cloth.name: mark(dot) for dot in curve.dots}
    assert marks["grey flannel"] == "a"
    assert marks["blue <twill> & co"] == "C"
    past = replace(curve.dots[0], letter="aa")
    assert mark(past) == "○"


@pytest.mark.parametrize("system", System)
@pytest.mark.parametrize("width", [60, 80, 100])
def test_text_says_it_all_within_its_width(curve: WidthCurve, system: System, width: int) -> None:
    text = curve_text(curve, system, width)
    assert max(map(len, text.splitlines())) <= width
    names = ("grey flannel", "short by") if width >= 80 else ("grey", "short")
    for words in (*names, "office pair", "legal on a wider one", "(nap)", "◆"):
        assert words in " ".join(text.split())


def test_the_drawing_has_true_axes(curve: WidthCurve) -> None:
    """Each mark stands where a ruler laid on the axes would put it."""
    root = ElementTree.fromstring(curve_svg(curve, System.METRIC))
    frame = frame_of(curve)
    for dot in curve.dots:
        (group,) = [g for g in root.iter(f"{SVG}g") if g.get("data-cloth") == dot.cloth.name]
        x = LEFT + (dot.at.mm - frame.left) / (frame.right - frame.left) * WIDE
        y = TOP + HIGH * (1 - dot.pairing.have.mm / frame.top)
        disc = group.find(f"{SVG}circle")
        if disc is not None:
            place = (float(disc.get("cx", "")), float(disc.get("cy", "")))
            assert place == pytest.approx((x, y), abs=0.01)
        words = [text.text for text in group.iter(f"{SVG}text")]
        assert words == [mark(dot)]
    lines = [
        float(line.get("x1", ""))
        for line in root.iter(f"{SVG}line")
        if line.get("class") == "width"
    ]
    apart = WIDE * 200 / (frame.right - frame.left)  # every 20 cm
    assert [b - a for a, b in pairwise(lines)] == pytest.approx(
        [apart] * (len(lines) - 1), abs=0.02
    )


def test_letters_keep_clear_of_one_another_in_a_crowd(curve: WidthCurve) -> None:
    """Nine cloths alike but for some millimetres; the letters are 13 high."""
    first = curve.dots[0]
    crowd = tuple(
        replace(first, letter=letter, at=first.at + Length.from_mm(4 * number))
        for number, letter in enumerate("ABCDEFGHI")
    )
    root = ElementTree.fromstring(curve_svg(replace(curve, dots=crowd), System.METRIC))
    groups = [group for group in root.iter(f"{SVG}g") if group.get("data-cloth")]
    places = [
        (float(text.get("x", "")), float(text.get("y", "")))
        for group in groups
        for text in group.iter(f"{SVG}text")
    ]
    assert len(places) == 9
    for one, other in combinations(places, 2):
        assert abs(one[0] - other[0]) >= 7.9 or abs(one[1] - other[1]) >= 11.9
    assert len([line for line in root.iter(f"{SVG}line") if line.get("class") == "leader"]) >= 3


def test_the_drawing_needs_nothing_else(curve: WidthCurve) -> None:
    text = curve_svg(curve, System.IMPERIAL)
    assert not re.search(r"href|url\(|@import|<script", text)
    root = ElementTree.fromstring(text)
    words = " ".join(node.text or "" for node in root.iter(f"{SVG}text"))
    assert "usable width, in" in words
    assert "length, yd" in words
    assert "blue <twill> & co" in words
    kinds = [node.get("class", "") for node in root.iter() if "dot" in (node.get("class") or "")]
    assert sorted(kinds) == ["dot enough", "dot short", "dot short"]
    path = next(n for n in root.iter(f"{SVG}path") if n.get("class") == "curve").get("d", "")
    downs = [float(y) for y in re.findall(r"V([\d.]+)", path)]
    assert downs == sorted(downs)  # y of a drawing runs down: the need never rises


def test_json_has_the_keys_of_the_help(curve: WidthCurve) -> None:
    found = curve_json(curve)
    assert set(found) == keys(json_keys.CURVE) | keys(json_keys.CURVE_CLOTHS)
    assert all(set(point) == keys(json_keys.CURVE_POINT) for point in found["points"])
    assert all(set(cloth) == keys(json_keys.CURVE_CLOTH) for cloth in found["cloths"])
    by_label = {point["label_width_mm"]: point for point in found["points"]}
    assert by_label[700]["need_mm"] is None
    assert by_label[700]["sureness"] == "unknown"
    assert (by_label[1400]["need_mm"], by_label[1400]["sureness"]) == (1800, "charted")
    assert (by_label[3000]["need_mm"], by_label[3000]["sureness"]) == (1800, "estimated")
    cord = next(cloth for cloth in found["cloths"] if cloth["cloth"] == "green cord")
    assert cord["apart"] == "nap"
    # 1/4 yd more for nap where the chart has none (common practice).
    assert cord["need_mm"] == pytest.approx(1800 + Length.from_inches(9).mm, abs=0.001)
