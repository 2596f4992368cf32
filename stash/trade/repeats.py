"""Repeats of a print: lengths cut to whole repeats so that every length starts alike."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.units.length import Length


def cut_to_repeats(length: Length, repeat: Length) -> Length:
    """`length` rounded up to whole repeats; a repeat of 0 changes nothing."""
    return length.ceil_to(repeat) if repeat else length


def repeats_to_order(length: Length, repeat: Length, count: int) -> Length:
    """What to buy for `count` lengths that match: one repeat more, as a bolt may start anywhere."""
    return cut_to_repeats(length, repeat).times(count) + repeat
