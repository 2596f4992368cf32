"""Options that ask nothing, or something that is no number or no file, are refused by name."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from cli_kit import ok, run

from stash.errors import Exit

if TYPE_CHECKING:
    from stash.services.stash import Stash

WIDE = ("lay", "easy", "--width", "140cm")
FIT = ("fit-in", "rain", "olive")


@pytest.mark.parametrize(
    ("args", "option"),
    [
        *((WIDE, option) for option in ("--size", "--view", "--repeat", "--flaw", "--gap")),
        *((WIDE, option) for option in ("--cloth", "--role", "--svg")),
        (("lay", "easy"), "--width"),
        *((FIT, option) for option in ("--seam", "--shorter", "--role", "--svg")),
        (("pattern", "need", "easy"), "--size"),
        (("pattern", "export", "easy"), "--svg"),
        (("pattern", "export", "easy"), "--dxf"),
        (("pattern", "import", "no such file.svg"), "--seam"),
        (("promise", "rain", "olive"), "--length"),
        *((("cut", "rain"), option) for option in ("--length", "--left", "--role")),
        (("release", "rain"), "--role"),
    ],
)
@pytest.mark.parametrize("empty", ["", "  "])
def test_an_empty_option_is_refused(
    small: Stash, args: tuple[str, ...], option: str, empty: str
) -> None:
    result = run(*args, option, empty)
    assert result.exit_code == Exit.BAD_INPUT
    assert result.stderr.startswith(f"stash: Nothing was typed for {option}. Type {option} ")
    assert len(result.stderr.splitlines()) == 1
    assert result.stdout == ""


def test_an_empty_cloth_after_another_is_refused_too(small: Stash) -> None:
    result = run("lay", "rain", "--cloth", "olive", "--cloth", "")
    assert result.exit_code == Exit.BAD_INPUT
    assert "--cloth" in result.stderr


@pytest.mark.parametrize("args", [WIDE, FIT, ("pattern", "export", "easy")])
def test_no_drawing_goes_into_a_file_called_dash(
    small: Stash, args: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(*args, "--svg", "-")
    assert result.exit_code == Exit.BAD_INPUT
    assert "into a file" in result.stderr
    assert result.stdout == ""
    assert not Path("-").exists()


@pytest.mark.parametrize("args", [WIDE, FIT])
@pytest.mark.parametrize("seconds", ["nan", "-nan", "inf", "-inf", "NaN"])
def test_seconds_that_are_no_number_are_refused(
    small: Stash, args: tuple[str, ...], seconds: str
) -> None:
    result = run(*args, "--careful", seconds)
    assert result.exit_code == Exit.USAGE
    assert f"Invalid value for '--careful': '{seconds}' is " in result.stderr
    assert result.stdout == ""


def test_a_careful_search_without_pieces_says_so(small: Stash) -> None:
    ok("pattern", "add", "chart only", "--kind", "bag", "--sizes", "M")
    ok("pattern", "chart", "chart only", "size=M", "width=140cm", "amount=1.2m")
    result = run("lay", "chart only", "--width", "140cm", "--careful", "5")
    assert result.exit_code == Exit.DONE, result.stderr
    [said] = result.stderr.splitlines()
    assert said.startswith("chart only has no pieces for main to lay")
    assert said.endswith("leave --careful out.")


def test_the_size_that_was_chosen_is_named(small: Stash) -> None:
    assert "\nPattern    size 42\n" in ok(*WIDE)
    assert "\nPattern    size 40\n" in ok(*WIDE, "--size", "40")


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (("import", ""), "FILE. What to type: stash import --help"),
        (("import", "shelf.csv", "--rows", ""), "--rows. Type --rows ROWS, or leave --rows out."),
        (("restore", ""), "COPY. What to type: stash restore --help"),
        (("export", " "), "FILE. What to type: stash export --help"),
        (("backup", ""), "FILE. What to type: stash backup --help"),
        (("move", "--to", ""), "--to. Type --to URL."),
        (("pattern", "import", ""), "FILE. What to type: stash pattern import --help"),
        (("pattern", "remove-part", "easy", ""), "NUMBERS. What to type: stash pattern remove-"),
        (("diary", "list", "--cloth", ""), "--cloth. Type --cloth NAME, or leave --cloth out."),
        (("cut", "rain", "--length", ""), "--length. Type --length LENGTH, or leave "),
    ],
)
def test_nothing_is_no_name(small: Stash, args: tuple[str, ...], said: str) -> None:
    result = run(*args)
    assert result.exit_code == Exit.BAD_INPUT
    assert result.stderr.startswith(f"stash: Nothing was typed for {said}")
    assert len(result.stderr.splitlines()) == 1
    assert result.stdout == ""


@pytest.mark.parametrize(
    ("args", "said"),
    [
        ((*WIDE, "--careful", "abc"), "'abc' is not a number of seconds from 1 to 600: type 10"),
        ((*WIDE, "--careful", "900"), "'900' is not a number of seconds from 1 to 600: type 10"),
        ((*WIDE, "--times", "abc"), "'abc' is not a whole number from 2 to 12."),
        (("undo", "abc"), "'abc' is not a whole number of 1 or more."),
        (("pattern", "edit-part", "easy", "x"), "'x' is not a whole number of 1 or more."),
        (("history", "--last", "0"), "'0' is not a whole number of 1 or more."),
        (
            ("diary", "add", "bought", "x", "--day", "2026-13-01"),
            "'2026-13-01' is not a day. Type it as 2026-10-31.",
        ),
    ],
)
def test_what_is_no_number_and_no_day_is_told_in_plain_words(
    small: Stash, args: tuple[str, ...], said: str
) -> None:
    result = run(*args)
    assert result.exit_code == Exit.USAGE
    assert said in result.stderr.splitlines()[-1]
    assert "range" not in result.stderr
    assert result.stdout == ""


@pytest.mark.parametrize(
    "args",
    [("settings", "margin", "-5cm"), ("settings", "budget", "-.5"), ("undo", "-5")],
)
def test_a_number_below_nothing_is_no_option(small: Stash, args: tuple[str, ...]) -> None:
    result = run(*args)
    assert result.exit_code == Exit.BAD_INPUT
    assert result.stderr == f"stash: '{args[-1]}' is negative. Type it without the minus sign.\n"


def test_an_option_nobody_knows_is_still_one(small: Stash) -> None:
    result = run("settings", "margin", "-x")
    assert result.exit_code == Exit.USAGE
    assert "No such option" in result.stderr


def test_parts_are_not_called_rows(small: Stash) -> None:
    assert "'x' are no parts." in run("pattern", "remove-part", "easy", "x").stderr
