"""`stash fit-in`: what it says at the table, its keys, its drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from cli_kit import data, ok, run

from stash.cli import json_keys

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path


def keys(part: Mapping[str, str]) -> set[str]:
    """The keys a help page speaks of."""
    return {key.strip() for written in part for key in written.split(",")}


@pytest.fixture(autouse=True)
def _one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """Rectangles are laid sooner than a process starts."""
    monkeypatch.setattr("stash.services.solving.FEW", 1000)


def skirt(length: str = "1.3 m") -> None:
    """Three panels 80 x 60 cm on the fold, on 125 cm usable: 1.80 m, with one seam 1.20 m."""
    cloth = ("--structure", "woven", "--width", "127cm", "--length", length, "--washed")
    ok("cloth", "add", "drill", *cloth)
    ok("pattern", "add", "plain", "--kind", "dress")
    for name in ("front", "back", "side panel"):
        words = ("length=60cm", "width=40cm", "on_fold=yes")
        ok("pattern", "piece", "plain", "rectangle", f"name={name}", *words)
    ok("make", "add", "plain one", "--pattern", "plain")


def test_it_says_what_to_do_and_what_it_costs(home: Path, tmp_path: Path) -> None:
    skirt()
    drawing = tmp_path / "lay.svg"
    text = ok("fit-in", "plain one", "drill", "--careful", "0", "--svg", str(drawing))
    assert "short. It needs 1.80 m of 1.30 m: 0.50 m short" in " ".join(text.split())
    assert "It fits with one change" in text
    assert "nothing cheaper fits" in " ".join(text.split())
    assert "Back with a centre seam" in text
    assert "60 cm" in text
    assert "A seam down the middle of the back" in " ".join(text.split())
    assert "house rule" in text
    assert "<svg" in drawing.read_text()


def test_its_keys(home: Path) -> None:
    skirt()
    found = data("fit-in", "plain one", "drill", "--careful", "0")
    assert set(found) == keys(json_keys.FIT)
    assert all(set(one) == keys(json_keys.FIT_RUNG) for one in found["ladder"] + found["alone"])
    assert found["verdict"] == "short"
    assert (found["fits"], found["least"], found["cost"]) == (True, True, 2.0)
    first, last = found["ladder"]
    assert first["way"] is None
    assert (last["kind"], last["need_mm"], last["wins_mm"]) == ("centre", 1200, 600)
    assert last["checked"] is True
    assert {one["kind"] for one in found["alone"]} >= {"centre", "length", "margin"}
    assert any(one["kind"] == "donor" for one in found["left_out"])


def test_a_donor_and_its_keys(home: Path) -> None:
    skirt()
    shelf = ("--structure", "woven", "--width", "127cm", "--length", "40cm", "--washed")
    ok("cloth", "add", "offcut", *shelf)
    words = ("length=10cm", "width=100cm")
    ok("pattern", "piece", "plain", "rectangle", "name=front facing", *words)
    found = data("fit-in", "plain one", "drill", "--careful", "0", "--not", "centre")
    (alone,) = [one for one in found["alone"] if one["kind"] == "donor"]
    (given,) = alone["given"]
    assert keys(json_keys.FIT_GIVEN) | keys(json_keys.PAIRING) <= set(given)
    assert (given["cloth"], given["pieces"], given["verdict"]) == (
        "offcut",
        ["front facing"],
        "fits",
    )
    assert alone["wins_mm"] == 100


def test_inches_where_they_are_set(home: Path) -> None:
    skirt()
    ok("settings", "units", "imperial")
    text = ok("fit-in", "plain one", "drill", "--careful", "0")
    assert "23 1/2 in" in text  # 60 cm are 23.62 in, rounded down to eighths
    assert "9/16 in more at the centre" in " ".join(text.split())
    assert " cm" not in text
    assert " mm" not in text


def test_nothing_helps_and_what_to_buy(home: Path) -> None:
    skirt("60 cm")
    text = " ".join(ok("fit-in", "plain one", "drill", "--careful", "0").split())
    assert "Nothing makes it fit" in text
    assert "would still be missing" in text
    assert "To buy for the pattern as it is" in text


def test_it_fits_already(home: Path) -> None:
    skirt("2 m")
    assert "It fits as the pattern is" in ok("fit-in", "plain one", "drill")


def test_what_cannot_be(home: Path) -> None:
    skirt()
    assert run("fit-in", "plain one", "velvet").exit_code == 4
    result = run("fit-in", "plain one", "drill", "--seam", "wide")
    assert result.exit_code == 3
    assert "Traceback" not in result.stderr
    ok("pattern", "add", "idea", "--kind", "dress")
    ok("make", "add", "idea one", "--pattern", "idea")
    assert run("fit-in", "idea one", "drill").exit_code == 3
