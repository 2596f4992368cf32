"""The suit of a pairing in words: how high, how sure, and why, factor by factor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.pairing.sources import SOURCES
from stash.report.columns import wrapped

if TYPE_CHECKING:
    from collections.abc import Mapping

    from stash.pairing.judgement import MuslinFirst, Pairing, Reason

LENGTH = "length"
"""Told by the amounts already."""


def suit_words(pairing: Pairing) -> str:
    """`suit 82%`, and how much of it is known where something was not measured."""
    known = "" if pairing.suit_known >= 1 else f" (known by {pairing.suit_known:.0%})"
    return f"suit {pairing.suit:.0%}{known}"


def doubts(pairing: Pairing, width: int) -> list[str]:
    """The sentences of the factors that are not perfect or not known."""
    return [
        wrapped(reason.sentence, width, 4)
        for reason in pairing.reasons
        if reason.factor != LENGTH and (reason.mark is None or reason.mark < 1)
    ]


def factor_lines(pairing: Pairing, width: int) -> list[str]:
    """Every factor: its mark, what it counts, its sentence and its source."""
    found = []
    for reason in pairing.reasons:
        if reason.factor == LENGTH:
            continue
        found.append(wrapped(f"{_figures(reason)}. {reason.sentence}", width, 4, hang=4))
        found.append(wrapped(f"Source: {SOURCES[reason.factor]}.", width, 8))
    return found


def muslin_words(advice: MuslinFirst, names: Mapping[int, str]) -> str:
    """Why to test first, and the cloths to risk by name, best first."""
    if not advice.cloth_ids:
        return f"{advice.why} Nothing on the shelf is right and long enough for one."
    cloths = ", ".join(names[cloth_id] for cloth_id in advice.cloth_ids)
    return f"{advice.why} Best risked on it: {cloths}."


def _figures(reason: Reason) -> str:
    mark = "not known" if reason.mark is None else f"{reason.mark:.2f}"
    counts = f", counts {reason.weight:g}" if reason.weight else ""
    return f"{reason.factor.capitalize()} {mark}{counts}{', a hard ask' if reason.gate else ''}"
