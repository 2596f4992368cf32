"""A group of commands that imports a command only when it is asked for."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from collections.abc import Mapping


class LazyGroup(click.Group):
    """Knows each command by the place it is written in and its short help.

    `places` maps a command's name to (`module:attribute`, short help). `--help` is written
    from it alone, so that it needs nothing but click.
    """

    def __init__(self, *args: Any, places: Mapping[str, tuple[str, str]], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.places = places

    def list_commands(self, ctx: click.Context) -> list[str]:
        """In the order they are written down: by what a person does."""
        return list(self.places)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command, imported now."""
        if cmd_name not in self.places:
            return None
        module, attribute = self.places[cmd_name][0].split(":")
        command = getattr(import_module(module), attribute)
        assert isinstance(command, click.Command)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands without importing one."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, text) for name, (_, text) in self.places.items()])
