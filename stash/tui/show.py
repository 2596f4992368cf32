"""Values as the rooms show them: lengths in the person's units, verdicts by glyph and word."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from stash.pairing.judgement import Verdict
from stash.units.enough import show_enough
from stash.units.format_length import Measure, show_length
from stash.units.weight import show_weight

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.config import Settings
    from stash.pairing.judgement import Pairing, Reason
    from stash.units.enough import Enough
    from stash.units.length import Length

VERDICTS: dict[Verdict, tuple[str, str]] = {
    Verdict.FITS: ("✓", "success"),
    Verdict.CLOSE: ("≈", "warning"),
    Verdict.SHORT: ("▼", "error"),
    Verdict.TOO_NARROW: ("↔", "error"),
    Verdict.UNSUITED: ("✗", "error"),
    Verdict.UNKNOWN: ("?", "secondary"),
}
"""Glyph and theme colour of each verdict; the word always stands beside them."""


def amount(length: Length | None, settings: Settings, kind: Measure = Measure.AMOUNT) -> str:
    """A length, or a dash when there is none."""
    return "–" if length is None else show_length(length, settings.system, kind)


def width(length: Length, settings: Settings) -> str:
    """A width."""
    return show_length(length, settings.system, Measure.WIDTH)


def weight(gsm: float | None, settings: Settings) -> str:
    """A weight, or a question mark when nobody has weighed it."""
    return show_weight(gsm, settings.system) if gsm else "?"


def usable(length: Length, settings: Settings) -> str:
    """A width to lay pieces on."""
    return show_length(length, settings.system, Measure.USABLE)


def enough(need: Length | None, have: Length | None, settings: Settings) -> Enough | None:
    """Need, have and gap as they agree; None while one of them is not known."""
    if need is None or have is None:
        return None
    return show_enough(need, have, settings.system)


def spare_words(verdict: Verdict, shown: Enough | None) -> str:
    """What follows the verdict: `, 0.30 m spare`, ` by 0.12 m`, or nothing when not known."""
    if shown is None:
        return ""
    if shown.short:
        return f" by {shown.gap}" if verdict is Verdict.SHORT else f", {shown.gap} short"
    return f", {shown.gap} spare"


def verdict_text(verdict: Verdict | None, colours: Mapping[str, str]) -> Text:
    """Glyph and word in the verdict's colour."""
    if verdict is None:
        return Text("")
    glyph, colour = VERDICTS[verdict]
    return Text(f"{glyph} {verdict.value}", style=colours[colour])


def counted(number: int, noun: str) -> str:
    """`1 cloth`, `3 cloths`."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def suit_text(pairing: Pairing) -> str:
    """The suit as five cells and per cent: `▮▮▮▯▯ 62 %`."""
    filled = round(pairing.suit * 5)
    return "▮" * filled + "▯" * (5 - filled) + f" {round(pairing.suit * 100):3d} %"


def reason_line(reason: Reason) -> str:
    """One reason, with a sign for how it counts."""
    if reason.mark is None:
        sign = "?"
    elif reason.mark >= 0.75:
        sign = "+"
    elif reason.mark > 0:
        sign = "~"
    else:
        sign = "✗"
    return f"{sign} {reason.sentence}"


def heading(text: Text, words: str, colours: Mapping[str, str]) -> None:
    """Start a paragraph of `text` under a heading."""
    if text:
        text.append("\n\n")
    text.append(words, style=f"bold {colours['secondary']}")
