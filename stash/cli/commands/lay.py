"""`stash lay`."""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import click

from stash.cli.bar import Bar
from stash.cli.careful import lay_longer
from stash.cli.common import json_option, kind_option, line_width, opened, print_json, sample_option
from stash.cli.curve import print_curve, refuse_with_curve, write_drawing
from stash.cli.given import Asking, Drawing, Seconds, Whole
from stash.cli.json_keys import (
    CURVE,
    CURVE_CLOTH,
    CURVE_CLOTHS,
    CURVE_POINT,
    KIND,
    KINDS,
    LAY,
    PLACEMENT,
    SHARED,
    SHARED_PART,
    keys_help,
)
from stash.cli.kinds import print_kinds, refuse_with_kinds
from stash.cli.share import print_shared, refuse

if TYPE_CHECKING:
    from pathlib import Path

    from stash.config import System
    from stash.report.records import LaidOut
    from stash.services.asked import How
    from stash.services.stash import Stash

TALLEST = 40


@click.command(
    cls=Asking,
    epilog=f"{keys_help(LAY, PLACEMENT)}\n\n"
    + keys_help(CURVE, CURVE_POINT, CURVE_CLOTHS, CURVE_CLOTH, of="--curve --json")
    + "\n\n"
    + keys_help(KINDS, KIND, of="--kinds --json")
    + "\n\n"
    + keys_help(SHARED, SHARED_PART, of="--json with several cloths"),
)
@click.argument("ref", metavar="MAKE|PATTERN")
@click.option(
    "--cloth",
    "cloths",
    multiple=True,
    metavar="NAME",
    help="Lay it on this cloth; named again: big pieces on the first, small ones on the next.",
)
@click.option(
    "--width",
    metavar="WIDTH",
    help="Lay it on a bare width, edge to edge: 132cm. The usual selvedges come off it.",
)
@click.option("--role", default="main", show_default=True, metavar="ROLE", help="Role to lay.")
@kind_option
@click.option("--gap", metavar="LENGTH", help="Keep so much between any two pieces: 1cm.")
@click.option(
    "--selvedge",
    type=click.Choice(("keep", "cut")),
    default="cut",
    show_default=True,
    help="Keep: pieces may reach the very edge of the cloth.",
)
@click.option(
    "--times",
    type=Whole(2, 12),
    metavar="N",
    help="For N makes at once, 2 to 12: together or in layers, whichever is shorter.",
)
@click.option(
    "--repeat",
    metavar="LENGTH[xWIDTH]",
    help="As if the print had this repeat: 32cm, '32cm x 20cm half-drop'.",
)
@click.option(
    "--flaw",
    "flaws",
    multiple=True,
    metavar="X,Y,R",
    help="As if a flaw were there too: 80cm,40cm,3cm is its middle from the cut end and from the "
    "left usable edge, and its radius; or 'corners 0 0, 9 0, 9 6 cm'.",
)
@click.option("--nap/--no-nap", default=None, help="As if the cloth had nap, or none.")
@click.option("--size", default="", metavar="SIZE", help="Of a pattern; a make has its own.")
@click.option("--view", default="", metavar="VIEW", help="Of a pattern; a make has its own.")
@click.option(
    "--careful",
    type=Seconds(1, 600),
    metavar="SECONDS",
    help="Look so long for a shorter lay, 1 to 600; what is found is kept, also after Ctrl-C.",
)
@click.option(
    "--curve", is_flag=True, help="Need against width, 70 to 300 cm, with the shelf's cloths."
)
@click.option("--kinds", is_flag=True, help="Every kind of lay with its length, side by side.")
@click.option(
    "--svg",
    type=Drawing(),
    metavar="FILE",
    help="Write the drawing at true scale as well.",
)
@sample_option
@json_option
def lay(
    ref: str,
    cloths: tuple[str, ...],
    width: str | None,
    role: str,
    kind: str,
    gap: str | None,
    selvedge: str,
    times: int | None,
    repeat: str | None,
    flaws: tuple[str, ...],
    nap: bool | None,
    size: str,
    view: str,
    careful: float | None,
    curve: bool,
    kinds: bool,
    svg: Path | None,
    sample: bool,
    as_json: bool,
) -> None:
    """Lay a make or a pattern out and draw the lay.

    Without --cloth or --width a make is laid on the cloth promised to it, else on the best
    one on the shelf. A pattern needs one of them. With --curve neither is wanted. With
    several cloths there is one lay for each, and one drawing: FILE-1, FILE-2 and so on.
    """
    from stash.lay.problem import LayKind

    way = None if kind == "best" else LayKind(kind)
    cloth = cloths[0] if cloths else None
    how: How = {"cloth": cloth, "width": width, "nap": nap, "gap": gap}
    how["keep_selvedges"] = selvedge == "keep"
    how |= {"repeat": repeat, "flaws": flaws}
    several = {"a second --cloth": len(cloths) > 1, "--times": times is not None}
    if kinds:
        refuse_with_kinds(way, curve, careful, svg)
        refuse("The kinds are those of one lay on one cloth.", "--kinds", several)
        with opened(sample) as stash:
            print_kinds(stash, ref, role, size=size, view=view, how=how, as_json=as_json)
        return
    if curve:
        refuse_with_curve(cloth, width, careful, gap)
        kept = {"--selvedge": selvedge == "keep"}
        refuse("The curve is drawn for one make, less the selvedges.", "--curve", several | kept)
        wrong = {"--repeat": repeat is not None, "--flaw": bool(flaws)}
        refuse("The curve is drawn for the cloths of the shelf as they are.", "--curve", wrong)
        with opened(sample) as stash:
            asked = {"size": size, "view": view}
            print_curve(stash, ref, role, kind=way, nap=nap, svg=svg, as_json=as_json, **asked)
        return
    how |= {"kind": way, "careful": careful, "times": times}
    with opened(sample) as stash:
        if len(cloths) > 1:
            _share(stash, ref, cloths, role, size, view, how, svg, as_json)
            return
        laid = _laid(stash, ref, role, size, view, how)
        system = stash.settings.system
    _print(laid, system, svg, as_json)


def _share(
    stash: Stash,
    ref: str,
    cloths: tuple[str, ...],
    role: str,
    size: str,
    view: str,
    how: How,
    svg: Path | None,
    as_json: bool,
) -> None:
    """Several cloths for one role."""
    barred = {"--width": "width", "--careful": "careful", "--times": "times"}
    wrong = {option: how.get(key) is not None for option, key in barred.items()}
    refuse("Several cloths are for one make, laid quickly.", "all but one --cloth", wrong)
    print_shared(
        stash,
        ref,
        cloths,
        role,
        size=size,
        view=view,
        how=how,
        svg=svg,
        as_json=as_json,
        height=_height(),
    )


def _laid(stash: Stash, ref: str, role: str, size: str, view: str, how: How) -> LaidOut:
    """The quick lay, or a careful one."""
    from stash.services.laying import lay_any

    seconds = how.get("careful")
    if seconds is not None:
        return lay_longer(stash, ref, role, size=size, view=view, how=how, seconds=seconds)
    with Bar() as bar:
        return lay_any(stash, ref, role, size=size, view=view, **(how | {"weighed": bar}))


def _print(laid: LaidOut, system: System, svg: Path | None, as_json: bool) -> None:
    from stash.report.lay_text import lay_text
    from stash.report.plain import lay_json

    if svg is not None:
        _write_svg(laid, system, svg)
    if as_json:
        print_json(lay_json(laid))
    else:
        click.echo(lay_text(laid, system, line_width(), _height()))


def _height() -> int:
    """Rows of the drawing: as many as the terminal has room for."""
    return max(12, min(TALLEST, shutil.get_terminal_size((80, 30)).lines - 2))


def _write_svg(laid: LaidOut, system: System, place: Path) -> None:
    from stash.errors import BadInputError
    from stash.report.lay_svg import lay_svg

    if laid.lay is None:
        raise BadInputError(
            f"{laid.title}: there is nothing to draw.", "The pattern has no pieces for this role."
        )
    write_drawing(lay_svg(laid, laid.lay, system), place)
    click.echo(f"Drawn at true scale in {place}", err=True)
