"""Cutting the same pieces for several makes: beside each other, or in layers."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from stash.report.records import Several

if TYPE_CHECKING:
    from stash.pairing.judgement import Need
    from stash.services.asked import Asked


def shorter_way(asked: Asked, together: Need, one: Need) -> tuple[Need, Several]:
    """The need of the shorter way, and both of them.

    Args:
        asked: What is laid, for several makes.
        together: Need of all their pieces in one lay.
        one: Need of one make.
    """
    times = asked.question.times
    barred = _no_layers(asked)
    several = Several(
        times=times,
        together=together.length,
        layers=one.length.times(times) if one.length is not None and not barred else None,
        why_no_layers=barred,
    )
    if not several.layers_win:
        return together, several
    why = f"{one.why} {times} layers of it are cut at once."
    return replace(one, length=several.layers, why=why), several


def _no_layers(asked: Asked) -> str:
    """Why several layers cannot be cut from this cloth with one lay."""
    question = asked.question
    if question.outline:
        return "a remnant has no length for layers"
    if question.spots or question.patches:
        return "a flaw kept clear in one layer would be cut in another"
    return ""
