"""`stash lay` as if the cloth had a repeat or flaws."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

from stash.errors import Exit

if TYPE_CHECKING:
    from pathlib import Path

ON = ("lay", "quay", "--width", "102cm", "--nap")


@pytest.fixture(autouse=True)
def _apron(home: Path) -> None:
    """Two pieces nearly as wide as 100 cm, 40 cm long, 10 and 15 cm to their match points."""
    ok("pattern", "add", "quay apron", "--kind", "bag")
    for name, match in (("front", "10cm, 5cm"), ("back", "15cm, 5cm")):
        size = ("width=90cm", "length=40cm", "copies=1", "seam=0cm", "hem=0cm")
        ok("pattern", "piece", "quay apron", "rectangle", f"name={name}", *size, f"match={match}")


def test_a_repeat_is_met_and_one_more_is_cut() -> None:
    """As worked out in the lay's own tests: 80 cm plain, 95 cm on a repeat of 30 cm, and 30."""
    assert data(*ON)["need_mm"] == pytest.approx(800, abs=0.1)
    found = data(*ON, "--repeat", "30cm")
    assert found["need_mm"] == pytest.approx(950 + 300, abs=0.1)
    assert (found["repeat_mm"], found["repeat_across_mm"], found["half_drop"]) == (300, 0, False)
    assert found["repeat_at_mm"] == pytest.approx(100, abs=0.01)
    text = " ".join(ok(*ON, "--repeat", "30cm").split())
    assert "One repeat more, because the print may begin anywhere on the cloth." in text


def test_a_cloth_is_laid_as_if_printed() -> None:
    woven = ("--structure", "woven", "--width", "102cm", "--length", "3m", "--washed", "--nap")
    ok("cloth", "add", "sail", *woven)
    found = data("lay", "quay", "--cloth", "sail", "--repeat", "30cm")
    assert found["need_mm"] == pytest.approx(1250, abs=0.1)
    ok("cloth", "edit", "sail", "--repeat-length", "30cm")
    assert data("lay", "quay", "--cloth", "sail")["need_mm"] == pytest.approx(1250, abs=0.1)


def test_a_print_of_two_repeats_in_half_drop() -> None:
    found = data(*ON, "--repeat", "30cm x 20cm half-drop")
    assert (found["repeat_mm"], found["repeat_across_mm"], found["half_drop"]) == (300, 200, True)


@pytest.mark.parametrize("flaw", ["50mm,50cm,2cm", "corners 30 490, 70 490, 70 510 mm"])
def test_a_flaw_is_kept_clear(flaw: str) -> None:
    """Both pieces are wider than what it leaves on either side, so they start behind it."""
    found = data(*ON, "--flaw", flaw)
    assert found["need_mm"] == pytest.approx(870, abs=0.5)
    assert len(found["flaws"]) == 1


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--repeat", "often"), "often"),
        (("--repeat", "30cm x"), "no repeat of a print"),
        (("--repeat", "0cm"), "no length at all"),
        (("--repeat", "30cm half-drop"), "repeat across"),
        (("--flaw", "1,2"), "not a flaw"),
        (("--flaw", "1cm,2cm,x"), "not a flaw: 'x'"),
        (("--flaw", "1,2,3"), "In '1' the number 1 has no unit"),
        (("--flaw", "corners 0 0, 9 9, 0 9"), "without a unit"),
        (("--flaw", "corners 0 0, 9 9, 0 9, 9 0 cm"), "crosses"),
        (("--flaw", "2m,400cm,10cm"), "beside the cloth"),
        (("--flaw", "corners 0 2, 90 2, 90 2.06 m"), "beside the cloth"),
        (("--flaw", "2m,-10cm,10cm"), "negative"),
    ],
)
def test_what_is_no_repeat_or_flaw_is_told(options: tuple[str, ...], told: str) -> None:
    result = run(*ON, *options)
    assert result.exit_code == Exit.BAD_INPUT
    assert told in result.stderr


@pytest.mark.parametrize("option", [("--repeat", "30cm"), ("--flaw", "1cm,2cm,3cm")])
def test_the_curve_refuses_them(option: tuple[str, str]) -> None:
    result = run("lay", "quay", "--curve", *option)
    assert result.exit_code == Exit.BAD_INPUT
    assert option[0] in result.stderr


def test_a_lay_on_a_flawed_cloth_another_make_holds_says_so() -> None:
    woven = ("--structure", "woven", "--width", "102cm", "--length", "3m", "--washed")
    ok("cloth", "add", "sail", *woven, "--flaws", "150cm, 40cm, 3cm: ink")
    ok("make", "add", "other", "--pattern", "quay")
    on = ("lay", "quay apron", "--cloth", "sail")
    assert data(*on)["caution"] is None
    ok("promise", "other", "sail", "--length", "50 cm")
    assert "lay both makes out on it together" in data(*on)["caution"]
    assert "Caution    Part of this cloth is promised" in ok(*on)
