"""What options of several commands refuse alike: nothing typed, a number that is none."""

from __future__ import annotations

from math import isnan
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from click.core import ParameterSource

if TYPE_CHECKING:
    import os


class Asking(click.Command):
    """A command whose options ask something, so that an empty one asks nothing.

    Taken for left out it would be answered with another lay than was meant, without a word.
    """

    def invoke(self, ctx: click.Context) -> Any:
        """Refuse the first option that was typed with nothing in it, else run the command.

        Raises:
            BadInputError: It names the option.
        """
        for option in self.params:
            typed = ctx.get_parameter_source(option.name or "") is ParameterSource.COMMANDLINE
            if typed and isinstance(option, click.Option) and _is_empty(ctx.params[option.name]):
                _refuse_empty(option)
        return super().invoke(ctx)


def _is_empty(value: object) -> bool:
    texts = value if isinstance(value, tuple) else (value,)
    return any(isinstance(text, str) and not text.strip() for text in texts)


def _refuse_empty(option: click.Parameter) -> None:
    from stash.errors import BadInputError

    name = option.opts[0]
    raise BadInputError(
        f"Nothing was typed for {name}.",
        f"Type {name} {option.metavar or 'TEXT'}, or leave {name} out.",
    )


class Drawing(click.Path):
    """A file to draw into."""

    def __init__(self) -> None:
        super().__init__(dir_okay=False, path_type=Path)

    def convert(
        self,
        value: str | os.PathLike[str],
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> Any:
        """The place of the file.

        Raises:
            BadInputError: Nothing was typed, or the dash that stands for no file.
        """
        from stash.errors import BadInputError

        if _is_empty(value) and param is not None:
            _refuse_empty(param)
        if value == "-":
            raise BadInputError(
                "A drawing is written into a file only, not to standard output.",
                "Name one, such as drawing.svg.",
            )
        return super().convert(value, param, ctx)


class Seconds(click.FloatRange):
    """So many seconds."""

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """The number; click fails on one out of the range."""
        seconds: float = super().convert(value, param, ctx)
        if isnan(seconds):  # neither above nor below any number: the range let it through
            self.fail(
                f"{value} is no number of seconds: type one from {self.min:g} to {self.max:g}, "
                "such as 10.",
                param,
                ctx,
            )
        return seconds
