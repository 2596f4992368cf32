"""`stash lay --curve`."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest
from cli_kit import data, ok, run

from stash.cli import json_keys
from stash.errors import Exit

if TYPE_CHECKING:
    from pathlib import Path

SKIRT = ("lay", "market", "--curve")
GOLDEN = {
    "title", "make", "pattern", "view", "size", "role", "kind", "nap", "by_chart", "tried",
    "points", "cloths",
}  # fmt: skip
GOLDEN_POINT = {
    "label_width_mm", "usable_width_mm", "need_mm", "found_at_mm", "sureness", "why",
}  # fmt: skip
GOLDEN_CLOTH = {
    "letter", "cloth", "cloth_id", "usable_width_mm", "free_mm", "need_mm", "found_at_mm",
    "spare_mm", "sureness", "why", "verdict", "suit", "apart",
}  # fmt: skip


@pytest.fixture(autouse=True)
def _skirt(home: Path) -> None:
    ok("pattern", "add", "quay skirt", "--kind", "straight skirt")
    ok("pattern", "piece", "quay skirt", "rectangle", "name=half", "width=60cm", "length=62cm")
    ok("make", "add", "market skirt", "--pattern", "quay skirt")
    linen = ("--structure", "woven", "--width", "140cm", "--length", "2m", "--washed")
    ok("cloth", "add", "linen", *linen)


def test_json() -> None:
    found = data(*SKIRT)
    assert set(found) == GOLDEN
    assert all(set(point) == GOLDEN_POINT for point in found["points"])
    (linen,) = found["cloths"]
    assert set(linen) == GOLDEN_CLOTH
    assert (linen["cloth"], linen["verdict"], linen["free_mm"]) == ("linen", "fits", 2000)
    assert linen["usable_width_mm"] == 1380
    needs = [point["need_mm"] for point in found["points"]]
    assert all(one >= other for one, other in pairwise(needs))
    assert found["points"][0]["label_width_mm"] == 700
    assert found["points"][-1]["label_width_mm"] == 3000


def test_every_key_stands_in_the_help() -> None:
    help_page = ok("lay", "--help")
    parts = (json_keys.CURVE, json_keys.CURVE_POINT, json_keys.CURVE_CLOTHS, json_keys.CURVE_CLOTH)
    written = {key for part in parts for keys in part for key in keys.replace(",", " ").split()}
    assert written == GOLDEN | GOLDEN_POINT | GOLDEN_CLOTH
    assert all(key in help_page for key in written)
    assert "--curve" in help_page


def test_text_and_drawing(tmp_path: Path) -> None:
    drawing = tmp_path / "curve.svg"
    text = ok(*SKIRT, "--svg", str(drawing))
    for words in ("market skirt", "linen", "fits", "legal on a wider one", "138 cm"):
        assert words in " ".join(text.split())
    assert max(map(len, text.splitlines())) <= 80
    title = ElementTree.parse(drawing).getroot().find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text == "market skirt, main: need against width"


def test_a_pattern_needs_no_width() -> None:
    assert data("lay", "quay", "--curve")["make"] is None


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--width", "120cm"), "every width"),
        (("--cloth", "linen"), "every width"),
        (("--careful", "2"), "quick lays"),
        (("--role", "lining"), "no lining"),
        (("--role", "sleeve"), "sleeve"),
        (("--size", "40"), "its own size"),
        (("--svg", "/no/such/place.svg"), "cannot be written"),
    ],
)
def test_bad_input_is_told_in_a_sentence(more: tuple[str, ...], words: str) -> None:
    result = run(*SKIRT, *more)
    assert result.exit_code == Exit.BAD_INPUT, result.stderr
    assert words in result.stderr
    assert "Traceback" not in result.stderr


def test_an_unknown_make_is_not_found() -> None:
    assert run("lay", "nobody's cape", "--curve").exit_code == Exit.NOT_FOUND
