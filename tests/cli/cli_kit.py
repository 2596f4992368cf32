"""Running a command in this process."""

from __future__ import annotations

import json
from typing import Any

from click.testing import CliRunner, Result

from stash.cli.main import cli


def run(*args: str) -> Result:
    """Run `stash ARGS`; stdout and stderr are kept apart."""
    return CliRunner().invoke(cli, list(args), prog_name="stash")


def ok(*args: str) -> str:
    """The stdout of a command that must succeed."""
    result = run(*args)
    assert result.exit_code == 0, (args, result.stderr, result.exception)
    return result.stdout


def data(*args: str) -> dict[str, Any]:
    """The JSON of a command that must succeed."""
    found = json.loads(ok(*args, "--json"))
    assert isinstance(found, dict)
    return found
