"""`stash lay --kinds`."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

from stash.cli import json_keys
from stash.errors import Exit

if TYPE_CHECKING:
    from pathlib import Path

SKIRT = ("lay", "market", "--kinds")
GOLDEN = {"title", "usable_width_mm", "nap", "have_mm", "best", "kinds"}
GOLDEN_KIND = {"kind", "need_mm", "longer_mm", "spare_mm", "why"}


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
    assert all(set(kind) == GOLDEN_KIND for kind in found["kinds"])
    assert [kind["kind"] for kind in found["kinds"]] == ["open", "folded", "gate", "crossways"]
    assert found["usable_width_mm"] == 1380
    best = next(kind for kind in found["kinds"] if kind["kind"] == found["best"])
    assert best["longer_mm"] == 0
    assert best["need_mm"] == min(kind["need_mm"] for kind in found["kinds"])


def test_every_key_stands_in_the_help() -> None:
    help_page = ok("lay", "--help")
    parts = (json_keys.KINDS, json_keys.KIND)
    written = {key for part in parts for keys in part for key in keys.replace(",", " ").split()}
    assert written == GOLDEN | GOLDEN_KIND
    assert all(key in help_page for key in written)


def test_text_names_the_shortest_and_says_why_one_cannot_be_laid() -> None:
    text = ok(*SKIRT, "--nap")
    lines = {line.split()[0]: line for line in text.splitlines() if line.strip()}
    assert "shortest" in text
    assert "cannot be laid" in text
    assert "upside down" in " ".join(text.split())
    assert "to spare" in lines["open"]
    assert max(map(len, text.splitlines())) <= 80


def test_a_bare_width_has_nothing_to_spare() -> None:
    text = ok("lay", "quay", "--kinds", "--width", "120cm")
    assert "118 cm usable width" in text
    assert "spare" not in text


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (("--kind", "open"), "Leave --kind out"),
        (("--curve",), "Leave --curve out"),
        (("--careful", "2"), "Leave --careful out"),
        (("--svg", "lay.svg"), "Leave --svg out"),
        (("--width", "1cm"), "between the selvedges"),
        (("--gap", "1m"), "gap"),
    ],
)
def test_bad_input_is_told_in_a_sentence(more: tuple[str, ...], words: str) -> None:
    result = run(*SKIRT, *more)
    assert result.exit_code == Exit.BAD_INPUT, result.stderr
    assert words in result.stderr
    assert "Traceback" not in result.stderr
