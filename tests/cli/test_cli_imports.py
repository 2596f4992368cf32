from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

import click
import pytest

from stash.cli.commands.pattern import PLACES as PATTERN_PLACES
from stash.cli.main import PLACES, cli

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

HEAVY = {
    "sqlalchemy",
    "alembic",
    "textual",
    "rich",
    "pint",
    "numpy",
    "highspy",
    "pandas",
    "shapely",
}
LIST_MAY = {"sqlalchemy"}

SCRIPT = """
import sys
from stash.cli.main import cli
try:
    cli(sys.argv[1:], prog_name="stash")
except SystemExit as end:
    assert not end.code, end.code
print("LOADED", *sorted({name.partition(".")[0] for name in sys.modules}))
"""


def loaded(*args: str) -> set[str]:
    """Top-level modules loaded by a command in a clean interpreter."""
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, *args], capture_output=True, text=True, check=True
    )
    (line,) = [row for row in done.stdout.splitlines() if row.startswith("LOADED")]
    return set(line.split()[1:])


@pytest.mark.parametrize(
    "args", [["--version"], ["--help"], ["lay", "--help"], ["cloth", "add", "--help"]], ids=" ".join
)
def test_help_loads_nothing_heavy(args: list[str]) -> None:
    assert not loaded(*args) & HEAVY


@pytest.mark.parametrize("command", ["cloth", "make"])
def test_a_list_loads_only_the_database(small: Stash, command: str) -> None:
    small.close()
    assert loaded(command, "list") & HEAVY <= LIST_MAY


def test_running_as_a_module(home: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "stash", "cloth", "list", "--json"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.split() == ["{", '"cloths":', "[]", "}"]
    assert (home / "stash.db").exists()


def _commands() -> list[tuple[str, str, click.Command]]:
    found = []
    context = click.Context(cli)
    for name, (_, text) in PLACES.items():
        command = cli.get_command(context, name)
        assert command is not None
        found.append((name, text, command))
    group = cli.get_command(context, "pattern")
    assert isinstance(group, click.Group)
    for name, (_, text) in PATTERN_PLACES.items():
        command = group.get_command(context, name)
        assert command is not None
        found.append((f"pattern {name}", text, command))
    return found


@pytest.mark.parametrize(("name", "text", "command"), _commands(), ids=lambda p: str(p)[:20])
def test_short_help_is_the_first_line_of_the_long(
    name: str, text: str, command: click.Command
) -> None:
    del name
    assert command.help is not None
    assert command.help.splitlines()[0] == text


def test_every_command_and_option_has_help() -> None:
    stack = [command for _, _, command in _commands()]
    while stack:
        command = stack.pop()
        assert command.help, command.name
        for option in command.params:
            if isinstance(option, click.Option):
                assert option.help, (command.name, option.name)
        if isinstance(command, click.Group):
            context = click.Context(command)
            for name in command.list_commands(context):
                under = command.get_command(context, name)
                assert under is not None
                stack.append(under)
