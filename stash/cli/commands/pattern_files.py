"""`stash pattern import` and `export`: pieces from and to the drawings of other programs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stash.cli.common import json_option, line_width, opened, print_json, reference, say_replaced
from stash.cli.given import Asking, Drawing, Place

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.pattern_import import Look
    from stash.services.stash import Stash


@click.command("import", cls=Asking)
@click.argument("file", type=Place(folder=False))
@click.option("--pattern", "ref", metavar="NAME", help="Take the pieces for this pattern.")
@click.option("--size", default="", metavar="SIZE", help="Only this of the sizes drawn in layers.")
@click.option(
    "--as", "keep_as", default="", metavar="SIZE", help="Keep them as this size of the pattern."
)
@click.option("--pick", default="", metavar="NUMBERS", help="Take only these: 1,3-5.")
@click.option(
    "--square", default="", metavar="LENGTH", help="Side of the test square, if it does not say it."
)
@click.option(
    "--grain",
    default="",
    type=click.Choice(["", "up", "across"]),
    metavar="WAY",
    help="up or across the sheet, where no line shows it.",
)
@click.option("--unit", default="", metavar="UNIT", help="mm, cm or in, if a DXF does not say it.")
@click.option("--tiles", default="", metavar="ROWSxCOLUMNS", help="How a PDF's pages lie: 3x4.")
@click.option("--margin", default="", metavar="LENGTH", help="Cut off every edge of a PDF's page.")
@click.option("--overlap", default="", metavar="LENGTH", help="Shown by two neighbouring pages.")
@click.option(
    "--seam", default="", metavar="LENGTH", help="Add this allowance outside every outline."
)
@click.option("--dry-run", is_flag=True, help="Only look.")
@json_option
def import_(
    file: Path,
    ref: str | None,
    keep_as: str,
    pick: str,
    dry_run: bool,
    as_json: bool,
    **said: str,
) -> None:
    """Look at the pieces of an SVG, DXF or PDF file, and take them.

    Shows every closed outline with its name, how it is cut, its grain and size, what was
    guessed and what is wrong. With --pattern the ones marked "take" are kept, all or none.
    """
    from stash.services.part_words import replaced_words
    from stash.services.pattern_import import Said, look_at, take_pieces
    from stash.services.patterns import get_pattern

    with opened() as stash:
        known = get_pattern(stash, ref) if ref else None
        look = look_at(file, Said(**said), pick, pattern=known)
        if as_json:
            _print_json(look)
        else:
            _print(look, stash)
        if ref is None or known is None or dry_run:
            click.echo("Nothing was kept. To take them: --pattern NAME", err=True)
            return
        kept = take_pieces(stash, ref, look, keep_as)
        lost = replaced_words(known, kept, stash.settings.system)
    names = ", ".join(dict.fromkeys(one.name for one in look.taken))
    click.echo(f"{kept.name} now has: {names}.", err=True)
    say_replaced(lost)


def _print(look: Look, stash: Stash) -> None:
    from stash.report.columns import wrapped
    from stash.report.drawn_text import drawn_remarks, drawn_table

    width, sheet = line_width(), look.sheet
    if sheet.sizes:
        click.echo(f"Sizes drawn: {', '.join(sheet.sizes)}")
    click.echo(drawn_table(sheet.found, look.picked, stash.settings.system, width))
    for line in drawn_remarks(sheet.found, look.picked, width):
        click.echo(line)
    for note in sheet.notes:
        click.echo(wrapped(f"{note}.", width))


def _print_json(look: Look) -> None:
    from stash.report.plain import plain

    found = [{**plain(one), "taken": one.number in look.picked} for one in look.sheet.found]
    print_json({"found": found, "sizes": look.sheet.sizes, "notes": look.sheet.notes})


@click.command(cls=Asking)
@reference
@click.option("--svg", type=Drawing(), metavar="FILE", help="Write a drawing, read back alike.")
@click.option("--dxf", type=Drawing(), metavar="FILE", help="Write DXF after ASTM D6673, in mm.")
@click.option("--size", default="", metavar="SIZE", help="Only this size; default all.")
def export(ref: str, svg: Path | None, dxf: Path | None, size: str) -> None:
    """Write the pieces to an SVG or DXF drawing."""
    from stash.errors import BadInputError
    from stash.services.pattern_export import export_pieces

    files = [(path, ending) for path, ending in ((svg, ".svg"), (dxf, ".dxf")) if path is not None]
    if not files:
        raise BadInputError("No file is named.", "Say --svg FILE or --dxf FILE.")
    with opened() as stash:
        for path, ending in files:
            named = path if path.suffix.lower() == ending else path.with_name(path.name + ending)
            kept = export_pieces(stash, ref, named, size)
            click.echo(f"{len(kept.pieces)} pieces of {kept.name} are in {named}.", err=True)
