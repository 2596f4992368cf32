"""`stash pattern piece`, `chart` …: the pieces and tables of a pattern."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.common import (
    hanging,
    json_option,
    line_width,
    opened,
    pairs,
    print_field_help,
    print_fields,
    print_json,
    reference,
    sample_option,
    say_replaced,
)
from stash.cli.given import Asking, Whole

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from stash.garment.pattern import Pattern
    from stash.services.fields import Field
    from stash.services.stash import Stash

words = click.argument("said", nargs=-1, metavar="KEY=TEXT...")


@click.command()
@click.argument("family", required=False)
@json_option
def families(family: str | None, as_json: bool) -> None:
    """List the shapes a piece can be drafted from.

    With a family it lists the measures of it; those with * must be given.
    """
    from stash.services.pieces import families as every
    from stash.services.pieces import family_form

    forms = every() if family is None else (family_form(family),)
    if as_json:
        found = {form.key: [field.key for field in form.fields] for form in forms}
        print_json({"families": found})
    elif family is not None:
        print_field_help(forms[0].fields)
    else:
        for form in forms:
            click.echo(hanging(f"{form.key.ljust(16)} {form.help}", 17))


@click.command()
@reference
@click.argument("family")
@words
def piece(ref: str, family: str, said: tuple[str, ...]) -> None:
    """Draft a piece from a few measures and add it.

    stash pattern piece "easy trousers" "trouser front" name=front hip=100cm crotch=28cm
    length=104cm ankle=40cm size=42. See stash pattern families FAMILY for the measures.
    """
    from stash.services.half_pieces import half_words
    from stash.services.names import context
    from stash.services.patterns import add_piece, get_pattern
    from stash.services.pieces import doubts

    with opened() as stash:
        before = get_pattern(stash, ref)
        kept = add_piece(stash, ref, family, pairs(said))
        added = kept.pieces[-1]
        with stash.read() as session:
            asked = doubts(added, context(stash, session))
    halves = half_words(before, kept)
    click.echo(f"{added.name} is added: cut {added.copies}. {halves}".rstrip(), err=True)
    for question in asked:
        click.echo(f"{added.name}: {question[:1].lower()}{question[1:]}", err=True)


@click.command()
@reference
@sample_option
@json_option
def parts(ref: str, sample: bool, as_json: bool) -> None:
    """List all that hangs on a pattern, numbered.

    Pieces, sizes, chart rows, what each role asks, notions: stash pattern edit-part and
    remove-part take their numbers.
    """
    from stash.report.columns import table
    from stash.report.plain import plain
    from stash.services.pattern_parts import parts_of
    from stash.services.patterns import get_pattern

    with opened(sample) as stash:
        found = parts_of(stash, get_pattern(stash, ref))
    if as_json:
        print_json({"parts": [plain(part) for part in found]})
        return
    rows = [(str(part.number), part.kind.value, part.title, part.words) for part in found]
    click.echo(table((">No", "What", "Which", "Says"), rows, line_width(), keep=2))


@click.command("edit-part")
@reference
@click.argument("number", type=Whole(1))
@words
def edit_part(ref: str, number: int, said: tuple[str, ...]) -> None:
    """Change a piece, a size, a chart row, an ask or a notion.

    stash pattern edit-part "easy trousers" 1 length=102cm; without anything it lists the keys
    with what they say now. A piece that was drafted is drafted anew, a drawn one keeps its
    outline.
    """
    from stash.services.half_pieces import half_words
    from stash.services.pattern_parts import edit_part as change
    from stash.services.pattern_parts import get_part, part_fields, part_texts

    with opened() as stash:
        pattern, part = get_part(stash, ref, number)
        if said:
            kept = change(stash, ref, part, pairs(said), base=pattern)
            changed = f"{kept.name}: {part.kind} {part.title} is changed."
            click.echo(f"{changed} {half_words(pattern, kept)}".rstrip(), err=True)
            return
        texts = part_texts(stash, part)
    print_field_help(part_fields(part))
    click.echo()
    print_fields(part_fields(part), texts)


@click.command("remove-part", cls=Asking)
@reference
@click.argument("numbers")
def remove_part(ref: str, numbers: str) -> None:
    """Take parts out of a pattern by their numbers: 2 or 3,5-7.

    Asks that are taken out go back to what is usual for the kind of garment.
    """
    from stash.services.pattern_parts import remove_parts

    with opened() as stash:
        kept, gone = remove_parts(stash, ref, numbers)
    titles = ", ".join(f"{part.kind} {part.title}" for part in gone)
    click.echo(f"Out of {kept.name}: {titles}.", err=True)


def _told(
    ref: str | None,
    said: tuple[str, ...],
    fields: Sequence[Field],
    keep: Callable[[Stash, str, Mapping[str, str]], Pattern],
) -> tuple[Pattern, str] | None:
    """The pattern with what was said kept, and what gave way; if nothing is said, the keys."""
    from stash.services.part_words import replaced_words
    from stash.services.patterns import get_pattern

    if ref is None or not said:
        print_field_help(fields)
        return None
    with opened() as stash:
        before = get_pattern(stash, ref)
        kept = keep(stash, ref, pairs(said))
        return kept, replaced_words(before, kept, stash.settings.system)


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def size(ref: str | None, said: tuple[str, ...]) -> None:
    """Add a size with its measures, or change one.

    stash pattern size "easy trousers" label=42 body="waist girth = 78 cm; hip girth = 102 cm"
    finished="hip girth = 112 cm"; without anything it lists the keys.
    """
    from stash.services.pattern_fields import SIZE_FIELDS
    from stash.services.patterns import add_size

    if told := _told(ref, said, SIZE_FIELDS, add_size):
        kept, lost = told
        sizes = ", ".join(one.label for one in kept.sizes)
        click.echo(f"Sizes of {kept.name}: {sizes}.", err=True)
        say_replaced(lost)


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def chart(ref: str | None, said: tuple[str, ...]) -> None:
    """Add a row of the envelope's table of amounts.

    stash pattern chart "easy trousers" size=42 width=140cm amount="2.4 m"; without anything
    it lists the keys.
    """
    from stash.services.chart_doubts import chart_doubts
    from stash.services.pattern_fields import CHART_FIELDS
    from stash.services.patterns import add_chart_row

    doubts: list[str] = []

    def keep(stash: Stash, ref: str, texts: Mapping[str, str]) -> Pattern:
        kept = add_chart_row(stash, ref, texts)
        doubts.extend(chart_doubts(kept, kept.charts[-1:], stash.settings.system))
        return kept

    if told := _told(ref, said, CHART_FIELDS, keep):
        kept, lost = told
        click.echo(f"Chart rows of {kept.name}: {len(kept.charts)}.", err=True)
        say_replaced(lost)
    for doubt in doubts:
        click.echo(doubt, err=True)


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def asks(ref: str | None, said: tuple[str, ...]) -> None:
    """Say what a role asks of its cloth.

    stash pattern asks "easy trousers" structures=woven weight_low="150 gsm"; without anything
    it lists the keys. What is not typed stays; key= takes an ask away.
    """
    from stash.services.pattern_fields import ASKS_FIELDS
    from stash.services.patterns import set_asks

    if told := _told(ref, said, ASKS_FIELDS, set_asks):
        click.echo(f"{told[0].name} asks as you said.", err=True)


@click.command()
@click.argument("ref", metavar="NAME", required=False)
@words
def notion(ref: str | None, said: tuple[str, ...]) -> None:
    """Add something small to have ready.

    stash pattern notion "easy trousers" name="elastic 30 mm" length=75cm; without anything it
    lists the keys.
    """
    from stash.services.pattern_fields import NOTION_FIELDS
    from stash.services.patterns import add_notion

    if told := _told(ref, said, NOTION_FIELDS, add_notion):
        kept, lost = told
        names = ", ".join(one.name for one in kept.notions)
        click.echo(f"Notions of {kept.name}: {names}.", err=True)
        say_replaced(lost)
