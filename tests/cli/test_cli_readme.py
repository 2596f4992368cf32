"""What the README tells a reader to type works as it stands there."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.cli.main import cli

README = Path(__file__).parents[2] / "README.md"
APP = ("demo", "load FOLDER")
"""Opens the app, or stands for a file of the reader's own."""


def _own_shelf() -> list[list[str]]:
    """The block of commands that fills a reader's own stash, one list of words each."""
    block = README.read_text().split("**Your own shelf.**")[1].split("\n\n")[1]
    lines = block.replace("\\\n", " ").strip().splitlines()
    return [shlex.split(line)[1:] for line in lines]


def _asides() -> list[list[str]]:
    """Every `stash …` in running text and in example sessions."""
    text = README.read_text()
    found = re.findall(r"`stash ([^`]+)`", text) + re.findall(r"\$ stash (.+)", text)
    return [shlex.split(one) for one in found if not one.startswith(APP)]


def test_the_commands_for_an_own_shelf_work_in_order(home: Path) -> None:
    for words in _own_shelf():
        result = CliRunner().invoke(cli, words)
        assert result.exit_code == 0, (words, result.output)
    assert "Green flannel" in result.output


@pytest.mark.parametrize("words", _asides(), ids=" ".join)
def test_a_command_named_in_the_text_is_known(words: list[str], sample_home: Path) -> None:
    plain = [word for word in words if word != "--sample"]
    asked = (
        [*plain, "--help"] if plain[0] in ("plan", "bench", "buy", "muslin", "fit-in") else plain
    )
    result = CliRunner().invoke(cli, asked)
    assert result.exit_code == 0, result.output


def _sessions() -> list[tuple[list[str], list[str]]]:
    """Every example session: the words typed, and the lines shown, `…` left out."""
    found = []
    for block in re.findall(r"((?:^    .*\n)+)", README.read_text(), re.MULTILINE):
        typed, *shown = block.strip().splitlines()
        if typed.startswith("$ stash "):
            lines = [line.strip() for line in shown if line.strip() != "…"]
            found.append((shlex.split(typed.removeprefix("$ stash ")), lines))
    return found


def test_an_example_shows_what_the_program_says(sample_home: Path) -> None:
    sessions = _sessions()
    assert sessions
    for words, shown in sessions:
        result = CliRunner().invoke(cli, [word for word in words if word != "--sample"])
        printed = [" ".join(line.split()) for line in result.output.splitlines()]
        assert [line for line in shown if " ".join(line.split()) not in printed] == []
