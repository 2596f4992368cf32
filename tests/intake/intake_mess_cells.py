"""Cells as people fill them, each with what is true of it, worked out beside our parsers."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable
    from random import Random

NM_M, NM_CM = 10**9, 10**7
NM_IN, NM_YD = 25_400_000, 914_400_000
"""International inch and yard, in nanometres: 25.4 mm and 914.4 mm exactly."""
GSM_PER_OZ = 28.349523125 / 0.9144**2
HEADINGS = (
    *("Fabric name", "Knit or woven", "Width (cm)", "Length (m)", "Composition", "Weight (gsm)"),
    *("Pre-washed?", "Nap", "Stretch", "Bought on", "Price per metre", "Colour", "Shop", "Bin"),
    *("Swatch nr", "Notes"),
)
REPORTED = object()
"""The truth of a cell that no reader may guess: it has to be told to the person."""


@dataclass(frozen=True)
class Mess:
    """A cell, what is true of it, and what kind of mess it is."""

    cell: Any
    truth: Any
    kind: str = "plain"
    shape: str = ""
    """Number format."""


def _length(rng: Random) -> Mess:
    eighths, cm = rng.randint(5, 60), rng.randint(40, 600)
    whole, rest = divmod(eighths, 8)
    mixed = f"{whole} {rest}/8" if whole and rest else str(whole) if whole else f"{rest}/8"
    yards = Fraction(eighths, 8) * NM_YD
    half = rng.randint(1, 5)
    metres = cm * NM_CM
    comma = f"{cm / 100:.2f}".replace(".", ",")
    return rng.choice(
        [
            Mess(cm / 100, metres, "number, unit in the heading"),
            Mess(f"{cm / 100:.2f}", metres, "number, unit in the heading"),
            Mess(f"{mixed} yds", yards, "fractions of a yard"),
            Mess(f"{half}½ yd", Fraction(2 * half + 1, 2) * NM_YD, "fraction of one character"),
            Mess(f"{comma} m", metres, "decimal comma"),
            Mess(f"  {cm}CM\xa0", metres, "stray spaces and capitals"),
            Mess(f"approx {cm / 100:.2f}m", metres, "about"),
            Mess(f"ca. {comma} m", metres, "about"),
            Mess(f"{cm / 100:.2f}m + scraps", metres, "and something more"),
            Mess(f"{half} yd {rest} in", half * NM_YD + rest * NM_IN, "yards and inches"),
            Mess(cm / 100, metres, "unit in the number format", '0.00" m"'),
        ]
    )


def _untold_length(rng: Random) -> Mess:
    return rng.choice(
        [
            Mess("2 x 1.5 m", REPORTED, "two pieces in one cell"),
            Mess("just under 2m", REPORTED, "may be less"),
            Mess(date(2024, 8, 5), REPORTED, "fraction made a date by the sheet"),
            Mess("a big piece", REPORTED, "no amount at all"),
            Mess("1m and 50cm", REPORTED, "two pieces in one cell"),
        ]
    )


def _width(rng: Random) -> Mess:
    cm, inches = rng.randint(90, 160), rng.choice((36, 44, 45, 54, 58, 60))
    return rng.choice(
        [
            Mess(cm, cm * NM_CM, "number, unit in the heading"),
            Mess(f'{inches}/{inches + 2}"', inches * NM_IN, "range of widths"),
            Mess(f"{cm}-{cm + 5} cm", cm * NM_CM, "range of widths"),
            Mess(f'{inches}"', inches * NM_IN, "inches by a quote"),
            Mess(f"{inches} inches wide", inches * NM_IN, "words after an amount"),
            Mess(f"{cm / 100:.2f} m".replace(".", ","), cm * NM_CM, "decimal comma"),
        ]
    )


def _content(rng: Random) -> Mess:
    most = rng.randint(80, 98)
    rest = 100 - most
    blend = {"cotton": most, "elastane": rest}
    linen = {"linen": most, "viscose": rest}
    return rng.choice(
        [
            Mess(f"{most}% cotton {rest}% elastane", blend),
            Mess(f"CO {most} EL {rest}", blend, "content by codes"),
            Mess(f"{most} % Baumwolle, {rest} % Elasthan", blend, "content in another language"),
            Mess(f"{most}% lin {rest}% viscose", linen, "content in another language"),
            Mess(f"linen/rayon {most}/{rest}", linen, "content by a ratio"),
            Mess("100% pure wool", {"wool": 100}, "words that add nothing"),
            Mess("?", {}, "not known"),
            Mess("unknown", {}, "not known"),
            Mess("", {}),
        ]
    )


def _untold_content(rng: Random) -> Mess:
    return rng.choice(
        [
            Mess("cotton lycra", REPORTED, "content without shares"),
            Mess("80% cotton 30% elastane", REPORTED, "content that adds up wrong"),
            Mess("mystery blend", REPORTED, "no content at all"),
        ]
    )


def _weight(rng: Random) -> Mess:
    gsm, ounces = rng.randint(60, 400), rng.randint(3, 12)
    return rng.choice(
        [
            Mess(gsm, float(gsm), "number, unit in the heading"),
            Mess(f"{gsm}gsm", float(gsm)),
            Mess(f"{gsm} g/m²", float(gsm)),
            Mess(f"{gsm} g/qm", float(gsm), "unit of another language"),
            Mess(f"{ounces} oz", ounces * GSM_PER_OZ, "weight in ounces"),
            Mess("n/a", None, "not known"),
            Mess("", None),
        ]
    )


def _flag(rng: Random) -> Mess:
    yes = [Mess(word, True, "yes in other words") for word in ("yes", "x", "✓", "ja", "Oui", "Y")]
    no = [Mess(word, False, "yes in other words") for word in ("no", "nein", "-", "", "N")]
    return rng.choice([*yes, *no, Mess(True, True, "yes in other words")])


def _day(rng: Random) -> Mess:
    day = date(2014, 1, 1) + timedelta(days=rng.randint(0, 4300))
    return rng.choice(
        [
            Mess(day, day, "real date"),
            Mess(day.isoformat(), day),
            Mess(f"{day.day}.{day.month}.{day.year}", day, "days in several forms"),
            Mess(f"{day.day} {day:%B} {day.year}", day, "days in several forms"),
            Mess(f"{day:%b} {day.day}, {day.year}", day, "days in several forms"),
            Mess(f"{day:%d/%m/%Y}", day, "days whose order the column tells"),
            Mess("?", None, "not known"),
            Mess("", None),
        ]
    )


def _price(rng: Random) -> Mess:
    cents = rng.randint(200, 4500)
    euros = Decimal(cents).scaleb(-2)
    per_metre = (euros / Decimal("0.9144")).quantize(Decimal("0.01"), ROUND_HALF_UP)
    return rng.choice(
        [
            Mess(float(euros), euros),
            Mess(f"{euros}".replace(".", ",") + " €", euros, "decimal comma"),
            Mess(f"€{euros}/m", euros, "price with its sign"),
            Mess(f"€{euros} per yd", per_metre, "price per yard"),
            Mess(float(euros), euros, "price with its sign", "[$€-2] #,##0.00"),
            Mess("gift", None, "not known"),
            Mess("", None),
        ]
    )


def _stretch(rng: Random) -> Mess:
    percent = rng.randint(5, 80)
    return rng.choice(
        [
            Mess(f"{percent}%", float(percent)),
            Mess(percent / 100, float(percent), "per cent in the number format", "0%"),
            Mess("none", 0.0, "not known"),
            Mess("", None),
        ]
    )


def _structure(rng: Random) -> Mess:
    return rng.choice(
        [
            Mess("woven", "woven"),
            Mess("Knit", "knit", "stray spaces and capitals"),
            Mess("Strick", "knit", "choice in another language"),
            Mess("tissé", "woven", "choice in another language"),
            Mess("jersey", "knit", "trade name for a structure"),
            Mess("denim", "woven", "trade name for a structure"),
        ]
    )


def _words(*choices: str) -> Callable[[Random], Mess]:
    return lambda rng: (lambda text: Mess(text, text.strip(), "words"))(rng.choice(choices))


MAKERS: dict[str, Callable[[Random], Mess]] = {
    "Knit or woven": _structure,
    "Width (cm)": _width,
    "Length (m)": _length,
    "Composition": _content,
    "Weight (gsm)": _weight,
    "Pre-washed?": _flag,
    "Nap": _flag,
    "Stretch": _stretch,
    "Bought on": _day,
    "Price per metre": _price,
    "Colour": _words("olive", "Rost", "bleu nuit", "off-white", ""),
    "Shop": _words("market stall", "Laden am Platz", ""),
    "Bin": _words("second drawer", "A3", "Kiste 4", ""),
    "Swatch nr": _words("17", "B-2", ""),
    "Notes": _words("for a skirt", "=1+1", "-20% sale", "two lines\nof it", '"quoted"', ""),
}


def mess_row(rng: Random, number: int) -> dict[str, Mess]:
    """One cloth; about one in sixteen has a cell that must be told to the person."""
    name = rng.choice(("Cloth", " Stoff", "Tissu ", "Remnant")) + f" {number}"
    row = {"Fabric name": Mess(name, name.strip(), "stray spaces and capitals")}
    row |= {heading: maker(rng) for heading, maker in MAKERS.items()}
    if rng.random() < 1 / 32:
        row["Length (m)"] = _untold_length(rng)
    if rng.random() < 1 / 32:
        row["Composition"] = _untold_content(rng)
    return row
