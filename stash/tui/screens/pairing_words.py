"""One pairing in words: the verdict, what is needed, why, what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.pairing.judgement import Verdict
from stash.report.plan_text import how_sure
from stash.report.suit_text import muslin_words, suit_words
from stash.tui.show import amount, enough, heading, reason_line, spare_words, verdict_text
from stash.tui.widgets.swatch import swatch
from stash.units.format_length import Measure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from rich.text import Text

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.pairing.judgement import Pairing


def pairing_words(
    pairing: Pairing, cloths: Mapping[int, Cloth], settings: Settings, colours: Mapping[str, str]
) -> Text:
    """All there is to say about it; `cloths` by id, for the names in it."""
    cloth = cloths[pairing.cloth_id]
    text = swatch(cloth.colour, cloth.name, cells=4)
    text.append("\n")
    text.append_text(verdict_text(pairing.verdict, colours))
    shown = enough(pairing.need.length, pairing.have, settings)
    text.append(spare_words(pairing.verdict, shown))
    text.append(f"\n{how_sure(pairing.need, settings.system)}: {pairing.need.why}")
    if pairing.verdict.can_be_cut and pairing.cut_from_shelf is not None:
        cut = amount(pairing.cut_from_shelf, settings, Measure.TAKEN)
        text.append(f"\ncut {cut} off the cloth as it lies")
    if pairing.verdict in (Verdict.SHORT, Verdict.TOO_NARROW, Verdict.CLOSE):
        text.append("\ni looks for what makes it fit")
    heading(text, f"Why: {suit_words(pairing)}", colours)
    for reason in sorted(pairing.reasons, key=lambda r: 1.0 if r.mark is None else r.mark):
        text.append(f"\n{reason_line(reason)}")
    if pairing.cautions:
        heading(text, "Mind", colours)
        text.append("".join(f"\n! {caution}" for caution in pairing.cautions))
    if pairing.muslin_first is not None:
        heading(text, "Test it first", colours)
        names = {number: cloth.name for number, cloth in cloths.items()}
        text.append(f"\n{muslin_words(pairing.muslin_first, names)}")
    return text
