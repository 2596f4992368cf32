"""`stash pattern …`: what can be made."""

from __future__ import annotations

from typing import Any

import click

from stash.cli.common import (
    field_options,
    json_option,
    line_width,
    opened,
    print_fields,
    print_json,
    reference,
    sample_option,
    seen_option,
    typed,
)
from stash.cli.lazy import LazyGroup
from stash.services.pattern_fields import PATTERN_FIELDS

PARTS = "stash.cli.commands.pattern_parts"
FILES = "stash.cli.commands.pattern_files"
PLACES: dict[str, tuple[str, str]] = {
    "add": ("stash.cli.commands.pattern:add", "Keep a pattern."),
    "list": ("stash.cli.commands.pattern:list_", "List the patterns, or those that match."),
    "show": ("stash.cli.commands.pattern:show", "Show a pattern, its pieces and tables."),
    "edit": ("stash.cli.commands.pattern:edit", "Change what you name of a pattern."),
    "remove": ("stash.cli.commands.pattern:remove", "Forget a pattern no make uses."),
    "families": (f"{PARTS}:families", "List the shapes a piece can be drafted from."),
    "piece": (f"{PARTS}:piece", "Draft a piece from a few measures and add it."),
    "import": (f"{FILES}:import_", "Look at the pieces of an SVG, DXF or PDF file, and take them."),
    "export": (f"{FILES}:export", "Write the pieces to an SVG or DXF drawing."),
    "need": (
        "stash.cli.commands.pattern_need:need",
        "Say what it would need over all common widths.",
    ),
    "parts": (f"{PARTS}:parts", "List all that hangs on a pattern, numbered."),
    "edit-part": (f"{PARTS}:edit_part", "Change a piece, a size, a chart row, an ask or a notion."),
    "remove-part": (
        f"{PARTS}:remove_part",
        "Take parts out of a pattern by their numbers: 2 or 3,5-7.",
    ),
    "size": (f"{PARTS}:size", "Add a size with its measures, or change one."),
    "chart": (f"{PARTS}:chart", "Add a row of the envelope's table of amounts."),
    "asks": (f"{PARTS}:asks", "Say what a role asks of its cloth."),
    "notion": (f"{PARTS}:notion", "Add something small to have ready."),
}
"""Its commands; those on pieces and tables stand in a module of their own."""


@click.group(cls=LazyGroup, places=PLACES)
def pattern() -> None:
    """Add, list, show, edit, remove patterns."""


@field_options(PATTERN_FIELDS, but=("name",))
@click.command()
@click.argument("name")
def add(name: str, **options: Any) -> None:
    """Keep a pattern.

    It must have a kind: stash pattern add "easy trousers" --kind "elastic trousers" --sizes
    "40, 42". Then add pieces (stash pattern piece, stash pattern import) or chart rows.
    """
    from stash.services.patterns import add_pattern, near_ones

    with opened() as stash:
        kept = add_pattern(stash, {"name": name, **typed(options)})
        near = near_ones(stash, kept)
    click.echo(f"{kept.name} is kept, number {kept.id}. {near}".rstrip(), err=True)


@click.command("list")
@click.argument("query", nargs=-1)
@sample_option
@json_option
def list_(query: tuple[str, ...], sample: bool, as_json: bool) -> None:
    """List the patterns, or those that match."""
    from stash.report.columns import table
    from stash.report.plain import plain
    from stash.services.patterns import all_patterns

    with opened(sample) as stash:
        rows = all_patterns(stash, " ".join(query))
    if as_json:
        found = [
            {**plain(row.pattern), "roles": plain(row.roles), "amounts": row.sureness}
            for row in rows
        ]
        print_json({"patterns": found})
    elif rows:
        lines = [
            (
                str(row.pattern.id),
                row.pattern.name,
                row.pattern.kind.value,
                ", ".join(size.label for size in row.pattern.sizes),
                ", ".join(row.roles),
                row.sureness,
                str(row.makes),
            )
            for row in rows
        ]
        head = (">No", "Name", "Kind", "Sizes", "Roles", "Amounts", ">Makes")
        click.echo(table(head, lines, line_width(), keep=1))
    else:
        none = "No pattern matches." if query else "No pattern yet: stash pattern add NAME …"
        click.echo(none, err=True)


@click.command()
@reference
@sample_option
@json_option
def show(ref: str, sample: bool, as_json: bool) -> None:
    """Show a pattern, its pieces and tables."""
    from stash.report.pattern_text import pattern_text
    from stash.report.plain import plain
    from stash.services.patterns import get_pattern, pattern_texts

    with opened(sample) as stash:
        found = get_pattern(stash, ref)
        texts = pattern_texts(stash, found)
        system = stash.settings.system
    if as_json:
        print_json(plain(found))
    else:
        print_fields(PATTERN_FIELDS, texts)
        click.echo(pattern_text(found, system, line_width()))


@field_options(PATTERN_FIELDS)
@click.command()
@reference
@seen_option
def edit(ref: str, seen: int | None, **options: Any) -> None:
    """Change what you name of a pattern."""
    from stash.services.patterns import edit_pattern

    with opened() as stash:
        kept = edit_pattern(stash, ref, typed(options), seen=seen)
    click.echo(f"{kept.name} is changed.", err=True)


@click.command()
@reference
def remove(ref: str) -> None:
    """Forget a pattern no make uses."""
    from stash.services.patterns import remove_pattern

    with opened() as stash:
        gone = remove_pattern(stash, ref)
    click.echo(f"{gone.name} is forgotten.", err=True)
