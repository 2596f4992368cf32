"""`stash lay` with several cloths, for several makes, selvedges kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

from stash.cli import json_keys
from stash.errors import Exit

if TYPE_CHECKING:
    from pathlib import Path

CLOTHS = ("--cloth", "linen", "--cloth", "scrap")


@pytest.fixture(autouse=True)
def _skirt(home: Path) -> None:
    ok("pattern", "add", "quay skirt", "--kind", "straight skirt")
    halves = ("name=half", "width=60cm", "length=62cm", "copies=2")
    ok("pattern", "piece", "quay skirt", "rectangle", *halves)
    pockets = ("name=pocket", "width=20cm", "length=20cm", "copies=2")
    ok("pattern", "piece", "quay skirt", "rectangle", *pockets)
    ok("make", "add", "market skirt", "--pattern", "quay skirt")
    for name, length in (("linen", "70cm"), ("scrap", "30cm")):
        woven = ("--structure", "woven", "--width", "140cm", "--length", length, "--washed")
        ok("cloth", "add", name, *woven)


def test_several_cloths_have_a_lay_and_a_drawing_each(tmp_path: Path) -> None:
    place = tmp_path / "skirt.svg"
    text = ok("lay", "market", *CLOTHS, "--svg", str(place))
    assert "linen: half" in text
    assert "scrap: pocket" in text
    assert text.count("Verdict ") == 2
    assert max(map(len, text.splitlines())) <= 80
    for number, cloth in ((1, "linen"), (2, "scrap")):
        assert cloth in place.with_name(f"skirt-{number}.svg").read_text(encoding="utf-8")
    assert not place.exists()


def test_json_of_several_cloths() -> None:
    found = data("lay", "market", *CLOTHS)
    assert set(found) == {
        key for keys in json_keys.SHARED for key in keys.replace(",", " ").split()
    }
    assert [part["pieces"] for part in found["parts"]] == [["half"], ["pocket"]]
    assert found["fits"]
    assert set(found["parts"][0]) - {"pieces"} == set(data("lay", "quay", "--width", "140cm"))


def test_what_is_missing_is_said_and_where() -> None:
    ok("cloth", "edit", "linen", "--length", "50cm")
    text = " ".join(ok("lay", "market", *CLOTHS).split())
    assert "These cloths are not enough. scrap would have to be" in text


def test_several_makes_at_once() -> None:
    text = ok("lay", "market", "--width", "140cm", "--times", "2")
    assert "in 2 layers cut at once" in text
    found = data("lay", "market", "--width", "140cm", "--times", "2")
    assert found["times"] == 2
    assert found["need_mm"] == min(found["together_mm"], found["in_layers_mm"])


def test_a_flaw_typed_bars_layers_too() -> None:
    width = ("lay", "market", "--width", "140cm")
    found = data(*width, "--times", "2", "--flaw", "10cm,70cm,1cm")
    assert found["in_layers_mm"] is None
    assert "a flaw kept clear" in ok(*width, "--times", "2", "--flaw", "10cm,70cm,1cm")


def test_kept_selvedges_are_said() -> None:
    text = ok("lay", "market", "--width", "140cm", "--selvedge", "keep")
    assert "140 cm full width, selvedges kept" in text
    assert data("lay", "market", "--width", "140cm")["selvedge"] == "cut"


@pytest.mark.parametrize(
    "wrong",
    [
        (*CLOTHS, "--times", "2"),
        (*CLOTHS, "--careful", "2"),
        (*CLOTHS, "--kinds"),
        (*CLOTHS, "--curve"),
        ("--cloth", "linen", "--times", "3", "--kinds"),
        ("--selvedge", "keep", "--curve"),
    ],
)
def test_what_does_not_go_together_is_refused_by_name(wrong: tuple[str, ...]) -> None:
    result = run("lay", "market", *wrong)
    assert result.exit_code == Exit.BAD_INPUT
    assert "out" in result.stderr
    assert result.stdout == ""
