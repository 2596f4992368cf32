"""What the commands share: opening the stash, printing, options made from fields."""

from __future__ import annotations

import json
import shutil
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

from stash.cli.given import Whole

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from stash.cloth.record import Cloth
    from stash.garment.make import Make, Person
    from stash.services.fields import Field
    from stash.services.stash import Stash

json_option = click.option("--json", "as_json", is_flag=True, help="Write JSON, lengths in mm.")
sample_option = click.option(
    "--sample", is_flag=True, help="Use a throw-away copy of the sample stash."
)
role_option = click.option(
    "--role", metavar="ROLE", help="main, contrast, lining, interfacing or rib."
)
kind_option = click.option(
    "--kind",
    type=click.Choice(("best", "open", "folded", "gate", "crossways")),
    default="best",
    show_default=True,
    help="How the cloth lies.",
)
seen_option = click.option(
    "--seen",
    type=Whole(1),
    metavar="VERSION",
    help="Refuse if it changed since this version, which show --json prints.",
)
reference = click.argument("ref", metavar="NAME")
WIDEST = 100


@contextmanager
def opened(sample: bool = False, mend: str = "") -> Iterator[Stash]:
    """The person's stash, or a throw-away sample if the command or `stash` was told so.

    With `mend` the value of that setting may be wrong, because it is about to be changed.
    """
    from stash.services.stash import Stash

    wanted = sample or bool(click.get_current_context().find_root().obj)
    with Stash.sample() if wanted else Stash.open(mend=mend) as stash:
        if stash.warning:
            click.echo(f"stash: {stash.warning}", err=True)
        yield stash


def print_json(data: Any) -> None:
    """JSON on stdout, readable."""
    click.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


def say_added(stash: Stash, noun: str, kept: Cloth | Make | Person, where: str) -> None:
    """That a record is kept; if another bears its name, how to take it back."""
    from stash.services.names import namesakes

    twin = namesakes(stash, noun, kept)
    back = f" {twin} If this one is too many: stash undo" if twin else ""
    click.echo(f"{kept.name} is {where}, number {kept.id}.{back}", err=True)


def say_kept(words: str, remarks: Iterable[str]) -> None:
    """That a change is kept, and what its service remarked."""
    click.echo(" ".join((words, *remarks)), err=True)


def say_replaced(words: str) -> None:
    """What gave way to something just kept, and the way back; nothing if nothing did."""
    if words:
        click.echo(f"{words} stash undo brings it back.", err=True)


def line_width() -> int:
    """Columns to write in: those of the terminal, 80 where there is none, at most 100."""
    return min(WIDEST, max(40, shutil.get_terminal_size((80, 24)).columns))


def field_options(
    fields: Sequence[Field], but: Sequence[str] = ()
) -> Callable[[click.Command], click.Command]:
    """Add an option for every field; `typed` turns them back into texts."""

    def add(command: click.Command) -> click.Command:
        command.params += [_option(field) for field in fields if field.key not in but]
        return command

    return add


def _option(field: Field) -> click.Option:
    name = field.key.replace("_", "-")
    if field.choices == ("yes", "no"):
        hint = field.hint.removeprefix("yes or no").removeprefix("yes ").strip()
        return click.Option(
            [f"--{name}/--no-{name}"], default=None, help=f"{field.label}: {hint}".rstrip(": ")
        )
    return click.Option([f"--{name}"], metavar="TEXT", help=f"{field.label}. {field.hint}")


def typed(options: Mapping[str, Any]) -> dict[str, str]:
    """What was typed, as texts by field key."""
    return {
        key: ("yes" if value else "no") if isinstance(value, bool) else value
        for key, value in options.items()
        if value is not None
    }


def pairs(words: Sequence[str]) -> dict[str, str]:
    """Words like `hip=100cm` as texts by field key.

    Raises:
        BadInputError: A word without `=`, or a key typed twice.
    """
    from stash.errors import BadInputError

    texts: dict[str, str] = {}
    for word in words:
        key, equals, text = word.partition("=")
        key = key.strip().lower().replace("-", "_").replace(" ", "_")
        if not equals or not key:
            raise BadInputError(f"{word!r} is not of the form KEY=TEXT.", "Type hip=100cm, say.")
        if key in texts:
            raise BadInputError(f"{key} is typed twice.", "Type each key once.")
        texts[key] = text
    return texts


def print_fields(fields: Sequence[Field], texts: Mapping[str, str]) -> None:
    """Labels and texts of the fields that say something."""
    wide = max(len(field.label) for field in fields)
    for field in fields:
        if texts[field.key]:
            click.echo(hanging(f"{field.label.ljust(wide)}  {texts[field.key]}", wide + 2))


def print_field_help(fields: Sequence[Field]) -> None:
    """Keys and hints, for commands that take KEY=TEXT."""
    for field in fields:
        star = "*" if field.required else " "
        click.echo(hanging(f"  {star} {field.key.ljust(16)} {field.hint}", 21))


def hanging(text: str, indent: int) -> str:
    """A label and its text; the text goes on under itself where the line is too long."""
    from stash.report.columns import wrapped

    return "\n".join(wrapped(line, line_width(), hang=indent) for line in text.splitlines())
