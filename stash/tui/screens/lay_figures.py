"""The figures over the drawing of a lay: need, cloth, kind, verdict, what to cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.text import Text

from stash.report.lay_text import STANDS_IN
from stash.report.lay_words import fold_words, folded_words
from stash.report.plan_text import how_sure
from stash.tui.show import amount, enough, spare_words, usable, verdict_text
from stash.units.format_length import Measure
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.config import Settings
    from stash.report.records import LaidOut
    from stash.units.enough import Enough

HAIR = 0.1
"""Millimetres over the bound that come from rounding."""


def figures(laid: LaidOut, settings: Settings, colours: Mapping[str, str], *, best: bool) -> Text:
    """Three lines or more; `best`: the kind was ours to choose."""
    shown = enough(laid.need.length, laid.have, settings)
    wants = shown.needs if shown else amount(laid.need.length, settings, Measure.NEED)
    text = Text("need ")
    text.append(wants, style="bold")
    text.append(f" ({how_sure(laid.need, settings.system)})")
    text.append(f"   usable {usable(laid.usable_width, settings)}, {laid.nap_words}")
    if laid.lay is not None:
        text.append(f"   {'best: ' if best else ''}{laid.lay.kind}{_apart(laid, settings)}")
    text.append("\n")
    text.append_text(_verdict(laid, shown, settings, colours))
    if laid.caution:
        text.append(f"\n{laid.caution}", style=colours["warning"])
    if laid.lay is not None:
        least = amount(Length.from_mm(laid.least_mm or 0.0), settings, Measure.LEAST)
        text.append(f"\ncannot be shorter than {least}   {laid.lay.utilisation:.0%} of it used")
        if beside := folded_words(laid, settings.system):
            text.append(f"   {beside}")
        for words in fold_words(laid.lay, settings.system):
            text.append(f"\n{' '.join(words.split()).lower()}")
    else:
        text.append(f"\n{laid.need.why}")
        if laid.stand_in is not None:
            text.append(f"\nDrawn: {STANDS_IN}.", style=colours["warning"])
    return text


def _verdict(
    laid: LaidOut, shown: Enough | None, settings: Settings, colours: Mapping[str, str]
) -> Text:
    if laid.verdict is None:
        if laid.cut_from_shelf is None:
            return Text()
        return Text(f"before the first wash {amount(laid.cut_from_shelf, settings, Measure.TAKEN)}")
    text = verdict_text(laid.verdict, colours)
    text.append(spare_words(laid.verdict, shown))
    if laid.cut_from_shelf is not None and laid.verdict.can_be_cut:
        cut = amount(laid.cut_from_shelf, settings, Measure.TAKEN)
        text.append(f"   cut {cut} off the cloth as it lies")
    return text


def _apart(laid: LaidOut, settings: Settings) -> str:
    if laid.problem is None or not laid.problem.gap:
        return ""
    return f", {amount(Length.from_mm(laid.problem.gap), settings, Measure.SMALL)} apart"


def gained(before: Length | None, laid: LaidOut, settings: Settings) -> str:
    """What a longer search brought, in a sentence."""
    after = laid.need.length
    if before is not None and after is not None and after.nm < before.nm:
        won = amount(before - after, settings, Measure.SMALL)
        return f"✓ {won} shorter than before. This lay is kept from now on."
    if laid.lay is not None and laid.lay.need <= laid.lay.bound.length + HAIR:
        return f"It cannot be shorter: {laid.lay.bound.why}."
    return "Nothing shorter was found; the lay stays as it was."
