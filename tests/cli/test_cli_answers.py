from __future__ import annotations

import json
import re
from itertools import combinations
from typing import TYPE_CHECKING
from xml.etree import ElementTree

import pytest
from cli_kit import data, ok, run
from shapely.geometry import Polygon

from stash.cli import json_keys
from stash.services.cloths import edit_cloth

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from stash.services.stash import Stash

pytestmark = pytest.mark.usefixtures("small")


def keys(part: Mapping[str, str]) -> set[str]:
    """The keys a help page speaks of."""
    return {key.strip() for written in part for key in written.split(",")}


LAY_KEYS = keys(json_keys.LAY)
PLACEMENT_KEYS = keys(json_keys.PLACEMENT)
PAIR_KEYS = keys(json_keys.PAIRING)
MAKE_KEYS = {
    "id", "make", "pattern", "view", "size", "person", "state", "priority", "due", "muslin",
    "muslin_for", "roles",
}  # fmt: skip
PUBLISHED = {
    "lay": "need_mm kind usable_width_mm nap utilisation lower_bound_mm solver seed checked "
    "sureness placements piece copy polygon turned mirrored",
    "plan": "makes cloth kind need_mm have_mm spare_mm verdict suit reasons sureness buy",
    "pair": "cloth kind need_mm have_mm spare_mm verdict suit reasons sureness",
    "muslin": "cloth kind need_mm have_mm spare_mm verdict suit reasons sureness",
    "buy": "buy",
}


@pytest.mark.parametrize("command", PUBLISHED)
def test_published_keys_stand_in_the_help(command: str) -> None:
    words = set(re.findall(r"\w+", ok(command, "--help")))
    assert set(PUBLISHED[command].split()) <= words


def test_lay_json(small: Stash) -> None:
    found = data("lay", "rain", "--cloth", "olive", "--kind", "folded")
    assert set(found) == LAY_KEYS
    assert all(set(one) == PLACEMENT_KEYS for one in found["placements"])
    assert (found["kind"], found["checked"], found["sureness"]) == ("folded", True, "laid out")
    assert found["lower_bound_mm"] <= found["need_mm"]
    assert found["folds_mm"] == [pytest.approx(found["usable_width_mm"] / 2, abs=0.05)]
    assert found["cross_fold_mm"] is None
    area = sum(Polygon(one["polygon"]).area for one in found["placements"])
    sheet = found["need_mm"] * found["usable_width_mm"]
    assert found["utilisation"] == pytest.approx(area / sheet, rel=1e-3)
    assert [one["mirrored"] for one in found["placements"]].count(True) == 2


def test_lay_draws_and_tells(tmp_path: Path) -> None:
    drawing = tmp_path / "lay.svg"
    text = ok("lay", "rain", "--cloth", "olive", "--svg", str(drawing))
    for words in ("front", "back", "cannot be shorter than", "fits", "checked", "seed 1"):
        assert words in text
    assert max(len(line) for line in text.splitlines()) <= 80
    found = data("lay", "rain", "--cloth", "olive")
    root = ElementTree.parse(drawing).getroot()
    assert root.get("width", "").endswith("mm")
    space = "{http://www.w3.org/2000/svg}"
    assert len(root.findall(f".//{space}polygon")) == len(found["placements"])


def test_lay_of_a_pattern_and_under_nap() -> None:
    found = data("lay", "easy", "--width", "132cm", "--nap", "--size", "40")
    assert (found["make"], found["size"], found["nap"]) == (None, "40", True)
    assert not any(one["turned"] for one in found["placements"])
    assert data("lay", "easy", "--width", "132cm", "--no-nap")["need_mm"] <= found["need_mm"]


@pytest.mark.parametrize(
    ("kind", "folds", "crossed"),
    [("open", 0, 0), ("folded", 1, 0), ("gate", 2, 0), ("crossways", 0, 1)],
)
def test_every_kind_can_be_asked_for(kind: str, folds: int, crossed: int) -> None:
    found = data("lay", "rain", "--width", "150cm", "--kind", kind)
    best = data("lay", "rain", "--width", "150cm")
    assert found["kind"] == kind
    assert found["checked"]
    assert len(found["folds_mm"]) == folds
    assert (found["cross_fold_mm"] is not None) == crossed
    assert best["need_mm"] <= found["need_mm"]
    assert ok("lay", "rain", "--width", "150cm", "--kind", kind).count("fold") >= folds + crossed


def test_a_gap_between_the_pieces() -> None:
    found = data("lay", "rain", "--width", "150cm", "--gap", "1 cm")
    assert found["gap_mm"] == 10
    polygons = [Polygon(one["polygon"]) for one in found["placements"]]
    assert all(a.distance(b) >= 9.99 for a, b in combinations(polygons, 2))
    assert data("lay", "rain", "--width", "150cm")["gap_mm"] == 0
    text = ok("lay", "rain", "--width", "150cm", "--gap", "1 cm")
    assert "10 mm between pieces" in " ".join(text.split())


def test_pair_json() -> None:
    found = data("pair", "rain")["candidates"]
    assert [set(one) for one in found] == [PAIR_KEYS, PAIR_KEYS]
    assert [one["verdict"] for one in found] == ["fits", "short"]
    assert found[0]["reasons"][0].keys() == {
        *("factor", "mark", "sentence", "gate", "weight", "source")
    }
    assert "olive cord" in ok("pair", "rain")


def test_pair_tells_every_factor_when_asked() -> None:
    best = data("pair", "rain")["candidates"][0]
    told = " ".join(ok("pair", "rain", "--why").split())
    for reason in best["reasons"]:
        if reason["factor"] != "length":
            assert reason["sentence"] in told
            assert f"Source: {reason['source']}." in told


def test_weights_of_the_suit_are_settings(small: Stash) -> None:
    edit_cloth(small, "olive", {"weight": "600 gsm"})

    def suit() -> float:
        return float(data("pair", "rain")["candidates"][0]["suit"])

    usual = suit()
    ok("settings", "suit_weights", "weight 10, hand 0.5")
    assert suit() < usual
    assert "weight 10, hand 0.5, bulk 1.5" in " ".join(ok("settings", "suit_weights").split())
    ok("settings", "suit_weights", "")
    assert suit() == usual
    refused = run("settings", "suit_weights", "colour 3")
    assert refused.exit_code == 3
    assert "The factors are purpose" in " ".join(refused.stderr.split())


def test_become_json() -> None:
    found = data("become", "olive")["could"]
    assert [set(one) for one in found] == [PAIR_KEYS | (keys(json_keys.BECOME) - {"could"})]
    assert (found[0]["pattern"], found[0]["verdict"]) == ("easy trousers", "fits")
    told = ok("become", "olive")
    assert "easy trousers, main" in told
    assert "rain trousers" in told
    none = run("become", "blue")
    assert none.exit_code == 0
    assert "--all" in none.stderr
    assert "short" in ok("become", "blue", "--all")


def test_muslin_json() -> None:
    extra = keys(json_keys.MUSLIN)
    ok("cloth", "add", "old twill", "--structure", "woven", "--width", "150cm", "--length", "3m")
    found = data("muslin", "rain")["candidates"]
    assert found
    assert all(set(one) == PAIR_KEYS | extra for one in found)
    assert ok("muslin", "rain")


def test_plan_and_buy_json() -> None:
    ok("make", "add", "second pair", "--pattern", "easy", "--size", "40", "--priority", "5")
    found = data("plan")
    assert set(found) == keys(json_keys.PLAN) | keys(json_keys.BUY)
    assert all(set(one) == MAKE_KEYS for one in found["makes"])
    role_keys = PAIR_KEYS | keys(json_keys.ROLE)
    roles = [role for one in found["makes"] for role in one["roles"]]
    assert all(set(role) == role_keys for role in roles)
    assert sorted(role["buy"] for role in roles) == [False, True]
    (line,) = found["buy"]
    assert set(line) == {"make", "role", "why", "asks", "best", "widths"}
    assert set(line["widths"][0]) == {"width_mm", "length_mm", "sureness", "why"}
    assert data("buy") == {"buy": found["buy"], "notions": found["notions"]}


def test_plan_reads_well_at_eighty_columns() -> None:
    ok("make", "add", "second pair", "--pattern", "easy", "--size", "40")
    text = ok("plan")
    assert max(len(line) for line in text.splitlines()) <= 80
    for words in ("Season plan", "rain trousers", "to be bought", "Buying list", "thread"):
        assert words in text
    assert text.index("Season plan") < text.index("Buying list")


def test_records_through_the_command_line() -> None:
    ok("person", "add", "Ida", "--measures", "waist = 78 cm")
    ok("make", "edit", "rain", "--person", "ida", "--due", "2026-11-01")
    (found,) = data("make", "list", "rain")["makes"]
    assert (found["person"], found["due"], found["roles"]) == ("Ida", "2026-11-01", ["main"])
    ok("promise", "rain", "olive")
    held = data("make", "show", "rain")["holds"]
    assert [(one["role"], one["cloth"], one["cut"]) for one in held] == [
        ("main", "olive cord", False)
    ]
    shown = data("cloth", "show", "olive")
    assert shown["promised_mm"] == held[0]["length_mm"]
    assert shown["promised_mm"] + shown["free_mm"] == shown["left_mm"]
    assert run("cloth", "remove", "olive").exit_code == 5
    ok("cut", "rain")
    assert data("make", "show", "rain")["state"] == "cut"
    assert data("diary", "list")["entries"][0]["kind"] == "cut"
    ok("diary", "add", "fitting", "2 cm too long", "--make", "rain")
    assert "  fitting (rain trousers): 2 cm too long" in ok("diary", "list")
    ok("diary", "add", "note", "smells of the sea", "--cloth", "olive", "--make", "rain")
    assert "  note (rain trousers, olive cord): smells" in ok("diary", "list", "--cloth", "olive")
    ok("diary", "add", "note", "swept the floor")
    floor, sea = data("diary", "list")["entries"][:2]
    assert (sea["make"], sea["cloth"]) == ("rain trousers", "olive cord")
    assert None not in (sea["make_id"], sea["cloth_id"])
    assert (floor["make"], floor["cloth"], floor["make_id"]) == (None, None, None)
    assert data("bench")["makes"][0]["make"] == "rain trousers"
    ok("cloth", "remove", "blue")
    ok("cloth", "edit", "olive", "--no-washed", "--nap")
    shown = data("cloth", "show", "olive")
    assert (shown["washed"], shown["nap"]) == (False, True)
    assert "Along" in ok("pattern", "show", "easy")


@pytest.mark.parametrize(
    ("noun", "args"),
    [
        ("cloth", ("olive cord", "--structure", "woven", "--width", "1m", "--length", "1m")),
        ("make", ("RAIN trousers", "--pattern", "easy", "--size", "40")),
        ("person", ("Ida",)),
    ],
)
def test_the_same_name_again_is_told_with_the_way_back(
    small: Stash, noun: str, args: tuple[str, ...]
) -> None:
    if noun == "person":
        assert "another" not in run(noun, "add", *args).stderr
    [told] = run(noun, "add", *args).stderr.splitlines()
    assert f". There is another {noun} of that name, number 1. If this one is too many" in told
    assert told.endswith(": stash undo")
    ok("undo")
    assert len(data("cloth", "list")["cloths"]) == 2


def test_measures_of_one_family_are_json_too() -> None:
    found = data("pattern", "families", "yoke")["families"]
    assert list(found) == ["yoke"]
    assert "neck_width" in found["yoke"]


def test_units_are_a_setting_and_both_are_understood() -> None:
    ok("settings", "units", "imperial")
    assert " in " in ok("cloth", "list")
    thread = [n["amount"] for n in data("buy")["notions"] if n["notion"] == "thread"]
    assert thread
    assert all(amount.endswith(" yd") for amount in thread)
    ok("cloth", "edit", "olive", "--length", "1,5 m")
    assert data("cloth", "show", "olive")["left_mm"] == 1500
    assert data("settings")["system"] == "imperial"
    ok("settings", "units", "")
    assert " in " not in ok("cloth", "list")


def test_the_app_opens_without_a_command(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[bool] = []
    monkeypatch.setattr("stash.tui.app.run_app", lambda stash: seen.append(stash.throw_away))
    ok()
    assert seen == [False]


def test_json_goes_to_stdout_alone() -> None:
    result = run("pair", "rain", "--json")
    assert json.loads(result.stdout)
    assert result.stderr == ""


def test_what_is_held_and_what_is_left_agree_in_inches() -> None:
    """1.5 m are 59.06 in (1 in = 25.4 mm exactly): eighths of a yard, 4 1/2 in, are too coarse."""
    ok("settings", "units", "imperial")
    held = run("promise", "rain", "blue", "--length", "1.5 m").stderr
    assert "59 1/8 in of blue stripe held" in held
    assert "59 in" in ok("cloth", "show", "blue")
    refused = run("cut", "rain", "--length", "60 in")
    assert "60 in cannot be cut from blue stripe, which is 59 in long" in refused.stderr
