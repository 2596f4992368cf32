"""What may be said about a cloth."""

from __future__ import annotations

from stash.cloth.record import USUAL_SELVEDGE, FibreShare, Hand, Structure
from stash.services import readers as r
from stash.services.fields import REQUIRED, Context, Field
from stash.units.length import ZERO


def _read_fibres(text: str, _: Context) -> tuple[FibreShare, ...]:
    from stash.trade.fibres import parse_fibres

    return tuple(FibreShare(fibre, percent) for fibre, percent in parse_fibres(text))


def _show_fibres(value: tuple[FibreShare, ...], _: Context) -> str:
    return " ".join(f"{share.percent:g}% {share.fibre}" for share in value)


def _read_weight(text: str, context: Context) -> float:
    from stash.units.parse_length import parse_width
    from stash.units.weight import parse_weight

    width = context.texts.get("width", "")
    return parse_weight(text, parse_width(width) if width else None)


def _show_weight(value: float | None, context: Context) -> str:
    from stash.units.weight import show_weight

    return "" if value is None else show_weight(value, context.settings.system)


CLOTH_FIELDS: tuple[Field, ...] = (
    Field(
        key="name",
        label="Name",
        hint="What you call it, for example: olive needlecord",
        read=r.read_text,
        show=r.show_text,
        empty=REQUIRED,
        group="The cloth",
    ),
    Field(
        key="structure",
        label="Structure",
        hint="woven, knit, felted, lace or coated",
        read=r.choice(Structure),
        show=r.show_text,
        empty=REQUIRED,
        choices=tuple(Structure),
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
        show=r.show_as("AMOUNT"),
        name="left",
        empty=REQUIRED,
    ),
    Field(
        key="bought",
        label="Length bought",
        hint="When it came; empty: the length left",
        read=r.read_positive_length,
        show=r.show_as("AMOUNT"),
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
    Field(
        key="weight",
        label="Weight",
        hint="240 gsm, 8 oz, 19 momme, 450 g/m",
        read=_read_weight,
        show=_show_weight,
    ),
    Field(
        key="stretch_across",
        label="Stretch across",
        hint="35 %, or: 4 in to 5.4 in",
        read=r.read_percent,
        show=r.show_percent,
    ),
    Field(
        key="stretch_along",
        label="Stretch along",
        hint="10 %, or: 10 cm to 11 cm",
        read=r.read_percent,
        show=r.show_percent,
    ),
    Field(
        key="recovery",
        label="Recovery",
        hint="How much of a stretch springs back: 92 %, or: 10 to 15 to 10.4 cm",
        read=r.read_recovery,
        show=r.show_percent,
    ),
    Field(
        key="hand",
        label="Hand",
        hint="fluid, soft, medium, firm or crisp",
        read=r.level(Hand),
        show=r.show_level,
        choices=tuple(step.name.lower() for step in Hand),
    ),
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
    r.flag("nap", "Nap", "yes if it has one right way up"),
    r.flag("raised", "Raised surface", "yes for flannel, velvet, terry, brushed cloth"),
    r.flag("sheer", "Sheer", "yes if it shows through"),
    r.flag(
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
    Field(
        key="care",
        label="Care",
        hint="In your words: 40 degrees, hang to dry",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="colour",
        label="Colour",
        hint="#rrggbb, for example #556b2f",
        read=r.read_colour,
        show=r.show_text,
        empty="#808080",
        group="Looks",
    ),
    Field(
        key="colour_name",
        label="Colour in words",
        hint="olive",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="print",
        label="Print",
        hint="stripe, check, floral; empty: plain",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
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
    Field(
        key="loved",
        label="Loved",
        hint="1 would not be missed, 5 the best on the shelf",
        read=r.whole(1, 5),
        show=r.show_text,
        empty=3,
        choices=("1", "2", "3", "4", "5"),
        group="Keeping",
    ),
    Field(
        key="price",
        label="Price per metre",
        hint="12.50",
        read=r.read_money,
        show=r.show_text,
    ),
    r.flag("again", "Can be bought again", "yes or no"),
    Field(
        key="place",
        label="Place",
        hint="Where it lies: second drawer",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
    Field(
        key="got",
        label="Got on",
        hint="2026-10-31",
        read=r.read_day,
        show=r.show_text,
    ),
    Field(
        key="notes",
        label="Notes",
        hint="Anything else",
        read=r.read_text,
        show=r.show_text,
        empty="",
    ),
)
"""In the order of a form."""
