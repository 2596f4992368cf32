"""The season by commands: health of the shelf, accepting a plan, supposing, and cutting."""

from __future__ import annotations

import pytest
from cli_kit import data, ok, run

from stash.cli import json_keys

pytestmark = pytest.mark.usefixtures("small")


def short_cord() -> None:
    """Enough for no pair of trousers that are 104 cm long."""
    asked = ("--structure", "woven", "--width", "140cm", "--length", "1 m", "--weight", "300gsm")
    ok("cloth", "add", "short cord", *asked, "--hand", "medium", "--washed")


def test_health_tells_what_lies_idle_and_how_to_make_it_fit() -> None:
    ok("promise", "rain", "olive")
    short_cord()
    text = ok("health")
    assert "In no plan (2)" in text
    assert "blue stripe" in text
    assert 'stash fit-in "rain trousers" "short cord"' in text
    assert max(len(line) for line in text.splitlines()) <= 80
    found = data("health")
    assert set(found) == set(json_keys.HEALTH)
    assert found["idle"] == ["blue stripe", "short cord"]
    # Seams and hem come on top of the 104 cm, and the cloth is 1 m.
    (almost,) = [one for one in found["almost"] if one["cloth"] == "short cord"]
    assert (almost["make"], almost["role"]) == ("rain trousers", "main")
    assert 40 <= almost["short_mm"] <= 300


def test_what_is_only_charted_is_not_laid_otherwise() -> None:
    ok("pattern", "add", "charted", "--kind", "elastic trousers", "--sizes", "M")
    ok("pattern", "chart", "charted", "size=M", "width=140cm", "amount=1.2m")
    ok("make", "add", "charted one", "--pattern", "charted", "--size", "M")
    ok("make", "edit", "rain", "--state", "let go")
    ok("cloth", "edit", "olive", "--length", "1 m")
    (almost,) = data("health")["almost"]
    assert (almost["cloth"], almost["make"]) == ("olive cord", "charted one")
    text = ok("health")
    assert "Short by a little" in text
    assert "fit-in" not in text


def test_a_plan_is_accepted_and_stays_until_it_is_let_go() -> None:
    said = ok("plan", "--accept")
    assert said.strip() == "olive cord is promised to rain trousers, main."
    (make,) = data("plan")["makes"]
    assert make["state"] == "promised"
    assert make["roles"][0]["pinned"] is False
    ok("release", "rain")
    (make,) = data("plan")["makes"]
    assert make["state"] == "thought"


def test_part_of_a_plan_is_accepted() -> None:
    ok("make", "add", "second pair", "--pattern", "easy", "--size", "42", "--priority", "1")
    assert "rain trousers" in ok("plan", "rain", "--accept")
    assert run("plan", "rain").exit_code == 2
    assert run("plan", "--accept", "--what-if", "drop rain").exit_code == 2
    unknown = run("plan", "velvet", "--accept")
    assert unknown.exit_code == 4


def test_supposing_tells_what_moves_and_keeps_nothing() -> None:
    ok("make", "add", "first of all", "--pattern", "easy", "--size", "42", "--priority", "5")
    found = data("plan", "--what-if", "drop first of all")
    assert found["supposed"] == ["first of all is dropped"]
    (move,) = found["moves"]
    assert (move["make"], move["before"], move["after"]) == ("rain trousers", None, "olive cord")
    text = " ".join(ok("plan", "--what-if", "drop first of all").split())
    assert "Supposed: first of all is dropped." in text
    assert data("plan")["moves"] == []
    wrong = run("plan", "--what-if", "sell the cord")
    assert wrong.exit_code == 3
    assert 'Type "drop MAKE"' in wrong.stderr


def test_what_is_left_is_what_was_measured() -> None:
    ok("promise", "rain", "olive", "--length", "1.3 m")
    ok("cut", "rain", "--left", "55 cm")
    assert data("cloth", "show", "olive")["left_mm"] == 550
    assert data("make", "show", "rain")["state"] == "cut"
    # 1.90 m on the shelf less 0.55 m measured: 1.35 m were cut, whatever was promised.
    assert "1.35 m" in ok("diary", "list")


def test_more_left_than_there_was_is_refused() -> None:
    ok("promise", "rain", "olive", "--length", "1.3 m")
    result = run("cut", "rain", "--left", "3 m")
    assert result.exit_code == 5
    assert data("cloth", "show", "olive")["left_mm"] == 1900
