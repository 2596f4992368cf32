"""What all commands refuse alike: nothing typed, a number or a day that is none, a minus sign."""

from __future__ import annotations

import re
from math import isnan
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click
from click.core import ParameterSource

from stash.errors import BadInputError

if TYPE_CHECKING:
    import os
    from collections.abc import Sequence
    from datetime import date


class Asking(click.Command):
    """A command whose options and arguments ask something, so that an empty one asks nothing.

    Taken for left out it would be answered otherwise than was meant, without a word.
    """

    def invoke(self, ctx: click.Context) -> Any:
        """Refuse the first one that was typed with nothing in it, else run the command.

        Raises:
            BadInputError: It names the option or argument.
        """
        for param in self.params:
            typed = ctx.get_parameter_source(param.name or "") is ParameterSource.COMMANDLINE
            if typed and _is_empty(ctx.params[param.name]):
                _refuse_empty(param, ctx)
        return super().invoke(ctx)


def _is_empty(value: object) -> bool:
    texts = value if isinstance(value, tuple) else (value,)
    return any(isinstance(text, str) and not text.strip() for text in texts)


def _refuse_empty(param: click.Parameter, ctx: click.Context) -> NoReturn:
    if isinstance(param, click.Option):
        name = param.opts[0]
        out = "" if param.required else f", or leave {name} out"
        hint = f"Type {name} {param.metavar or 'TEXT'}{out}."
    else:
        name = param.human_readable_name.strip("[].")
        hint = f"What to type: {ctx.command_path} --help"
    raise BadInputError(f"Nothing was typed for {name}.", hint)


def negative(option: str, typed: Sequence[str]) -> BadInputError | None:
    """What to say of an option nobody knows if it is the beginning of a number below nothing.

    Args:
        option: The option, a minus sign and one letter of what was `typed`.
        typed: Everything after the name of the command.
    """
    if not re.match(r"-[0-9.,]", option):
        return None
    word = next((word for word in typed if word.startswith(option)), option)
    return BadInputError(f"{word!r} is negative.", "Type it without the minus sign.")


class Place(click.Path):
    """A file or folder."""

    def __init__(self, *, folder: bool = True) -> None:
        super().__init__(dir_okay=folder, path_type=Path)

    def convert(
        self,
        value: str | os.PathLike[str],
        param: click.Parameter | None,
        ctx: click.Context | None,
    ) -> Any:
        """Where it is.

        Raises:
            BadInputError: Nothing was typed, which would mean the folder one is in.
        """
        if _is_empty(value) and param is not None and ctx is not None:
            _refuse_empty(param, ctx)
        return super().convert(value, param, ctx)


class Drawing(Place):
    """A file to draw into."""

    def __init__(self) -> None:
        super().__init__(folder=False)

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
        if value == "-":
            raise BadInputError(
                "A drawing is written into a file only, not to standard output.",
                "Name one, such as drawing.svg.",
            )
        return super().convert(value, param, ctx)


class Whole(click.IntRange):
    """A whole number, from the least to the most."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        """The number; click fails on anything else."""
        try:
            number: int = super().convert(value, param, ctx)
        except click.BadParameter:
            limits = (
                f"of {self.min} or more" if self.max is None else f"from {self.min} to {self.max}"
            )
            self.fail(f"{value!r} is not a whole number {limits}.", param, ctx)
        return number


class Seconds(click.FloatRange):
    """So many seconds."""

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """The number; click fails on anything else."""
        try:
            seconds: float = super().convert(value, param, ctx)
        except click.BadParameter:
            seconds = float("nan")
        if isnan(seconds):  # neither above nor below any number: the range lets it through
            self.fail(
                f"{value!r} is not a number of seconds from {self.min:g} to {self.max:g}: "
                "type 10, say.",
                param,
                ctx,
            )
        return seconds


def calendar_day(text: str) -> date:
    """A day of the calendar; click fails on anything else."""
    from stash.services.readers import parse_day

    try:
        return parse_day(text)
    except BadInputError as error:
        raise click.BadParameter(str(error)) from error
