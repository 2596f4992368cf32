"""What may be said about a cloth."""

from __future__ import annotations

from stash.cloth.record import USUAL_SELVEDGE, FibreShare, Flaw, Hand, Structure
from stash.services import readers as r
from stash.services import ready_fields as ready
from stash.services.fields import REQUIRED, Context, Field
from stash.units.length import ZERO


def _read_fibres(text: str, _: Context) -> tuple[FibreShare, ...]:
    from stash.trade.fibres import parse_fibres

    return tuple(FibreShare(fibre, percent) for fibre, percent in parse_fibres(text))


def _show_fibres(value: tuple[FibreShare, ...], _: Context) -> str:
    return " ".join(f"{share.percent:g}% {share.fibre}" for share in value)


def _read_flaws(text: str, _: Context) -> tuple[Flaw, ...]:
    from stash.intake.shape_words import read_flaws

    return read_flaws(text)


def _show_flaws(value: tuple[Flaw, ...], context: Context) -> str:
    from stash.report.shape_text import flaws_text

    return flaws_text(value, context.settings.system)


def _read_outline(text: str, _: Context) -> tuple[tuple[float, float], ...]:
    from stash.intake.shape_words import read_outline

    return read_outline(text)


def _show_outline(value: tuple[tuple[float, float], ...], context: Context) -> str:
    from stash.report.shape_text import outline_text

    return outline_text(value, context.settings.system)


CLOTH_FIELDS: tuple[Field, ...] = (
    ready.name("cloth", "What you call it, for example: olive needlecord", group="The cloth"),
    ready.one_of(
        Structure, "structure", "Structure", "woven, knit, felted, lace or coated", empty=REQUIRED
    ),
    Field(
        key="width",
        label="Width",
        hint='Edge to edge: 140 cm, 58", 58/60"',
        read=r.read_width,
        show=r.show_as("WIDTH"),
        empty=REQUIRED,
    ),
    Field(
        key="length",
        label="Length left",
        hint="On the shelf now: 2.4 m, 2 5/8 yd",
        read=r.read_any_length,
        show=r.show_as("SPARE"),
        name="left",
        empty=REQUIRED,
    ),
    Field(
        key="bought",
        label="Length bought",
        hint="When it came; empty: the length left",
        read=r.read_any_length,
        show=r.show_as("SPARE"),
    ),
    Field(
        key="selvedge",
        label="Selvedge",
        hint="Lost at each side: 1 cm, 3/8 in",
        read=r.read_any_length,
        show=r.show_as("SMALL"),
        empty=USUAL_SELVEDGE,
    ),
    Field(
        key="fibres",
        label="Fibres",
        hint="95% cotton 5% elastane",
        read=_read_fibres,
        show=_show_fibres,
        empty=(),
        group="What it is like",
    ),
    ready.weight("weight", "Weight", "240 gsm, 8 oz, 19 momme, 450 g/m"),
    ready.percent("stretch_across", "Stretch across", "35 %, or: 4 in to 5.4 in"),
    ready.percent("stretch_along", "Stretch along", "10 %, or: 10 cm to 11 cm"),
    Field(
        key="recovery",
        label="Recovery",
        hint="How much of a stretch springs back: 92 %, or: 10 to 15 to 10.4 cm",
        read=r.read_recovery,
        show=r.show_percent,
    ),
    ready.steps(Hand, "hand", "Hand", "fluid, soft, medium, firm or crisp"),
    Field(
        key="bending_length",
        label="Bending length",
        hint="Millimetres on the cantilever, for example 22",
        read=r.number(1, 200),
        show=r.show_number,
    ),
    Field(
        key="drape",
        label="Drape coefficient",
        hint="Per cent, or the shadow it comes from: 45, 452 cm2",
        read=r.read_drape,
        show=r.show_number,
    ),
    ready.flag("nap", "Nap", "yes if it has one right way up"),
    ready.flag("raised", "Raised surface", "yes for flannel, velvet, terry, brushed cloth"),
    ready.flag("sheer", "Sheer", "yes if it shows through"),
    ready.flag(
        "washed", "Washed", "yes once it has been washed as the garment will be", group="Washing"
    ),
    Field(
        key="shrink_length",
        label="Shrinks in length",
        hint="At the first wash: 5 %; empty: what is usual for its kind",
        read=r.read_loss,
        show=r.show_percent,
    ),
    Field(
        key="shrink_width",
        label="Shrinks in width",
        hint="At the first wash: 3 %; empty: what is usual for its kind",
        read=r.read_loss,
        show=r.show_percent,
    ),
    ready.text("care", "Care", "In your words: 40 degrees, hang to dry"),
    Field(
        key="colour",
        label="Colour",
        hint="#rrggbb, for example #556b2f",
        read=r.read_colour,
        show=r.show_text,
        empty="#808080",
        group="Looks",
    ),
    ready.text("colour_name", "Colour in words", "olive"),
    ready.text("print", "Print", "stripe, check, floral; empty: plain"),
    Field(
        key="repeat_length",
        label="Repeat along",
        hint="12 cm; empty: none",
        read=r.read_any_length,
        show=r.show_as("SMALL"),
        empty=ZERO,
    ),
    Field(
        key="repeat_width",
        label="Repeat across",
        hint="12 cm; empty: none",
        read=r.read_any_length,
        show=r.show_as("SMALL"),
        empty=ZERO,
    ),
    ready.flag("half_drop", "Half drop", "yes if every second column is shifted by half a repeat"),
    Field(
        key="flaws",
        label="Flaws",
        hint="Kept clear: 80 cm along, 40 cm across, 3 cm radius: ink; "
        "corners 0 0, 9 0, 9 6 cm: tear",
        read=_read_flaws,
        show=_show_flaws,
        empty=(),
        group="Flaws and shape, from the end that is cut first and the left usable edge",
    ),
    Field(
        key="outline",
        label="Outline",
        hint="Corners of a remnant, along and across: 0 0, 90 0, 90 60, 0 64 cm; "
        "empty: a plain length",
        read=_read_outline,
        show=_show_outline,
        empty=(),
    ),
    ready.marks(
        "loved", "Loved", "1 would not be missed, 5 the best on the shelf", group="Keeping"
    ),
    Field(
        key="price",
        label="Price per metre",
        hint="12.50, 12.50/yd",
        read=r.read_price,
        show=r.show_text,
    ),
    ready.flag("again", "Can be bought again", "yes or no"),
    ready.text("place", "Place", "Where it lies: second drawer"),
    ready.day("got", "Got on", "2026-10-31"),
    ready.notes(),
)
"""In the order of a form."""
