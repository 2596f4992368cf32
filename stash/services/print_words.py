"""A print's repeat, the flaws of a cloth and the gap between pieces, as typed for one lay."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from stash.cloth.edges import begins
from stash.errors import BadInputError
from stash.intake.shape_words import read_flaws
from stash.lay.problem import COARSEST_MM, FINEST_MM
from stash.lay.validate_cloth import WIDEST_GAP_MM
from stash.services.cloth_shape import refuse_sizeless
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO, Length
from stash.units.parse_length import parse_length

if TYPE_CHECKING:
    from stash.cloth.record import Flaw
    from stash.config import System

_HALF_DROP = re.compile(r",?\s*half[ -]drop$", re.IGNORECASE)
_HINT = "Type it as 32cm, 32cm x 20cm, or 32cm x 20cm half-drop."


class Print(NamedTuple):
    """The repeat of a print."""

    along: Length
    across: Length
    """Nothing: the same all across."""
    half_drop: bool


def read_print(text: str) -> Print:
    """`32cm`, `32cm x 20cm` or `32cm x 20cm half-drop`.

    Raises:
        BadInputError: anything else, or a half-drop without a repeat across.
    """
    plain = text.strip()
    sizes = _HALF_DROP.sub("", plain)
    half_drop = sizes != plain
    parts = [part.strip() for part in re.split("[x×]", sizes)]
    if len(parts) > 2 or not all(parts):
        raise BadInputError(f"{text!r} is no repeat of a print.", _HINT)
    along, across = parse_length(parts[0]), parse_length(parts[1]) if parts[1:] else ZERO
    if not along or (parts[1:] and not across):
        raise BadInputError(f"{text!r} repeats after no length at all.", _HINT)
    if max(along.mm, across.mm) > COARSEST_MM or min(along.mm, across.mm or along.mm) < FINEST_MM:
        raise BadInputError(f"{text!r} is no repeat of a print: 1 mm to 12 m is.", _HINT)
    if half_drop and not across:
        raise BadInputError("A half-drop print has a repeat across too, which is missing.", _HINT)
    return Print(along, across, half_drop)


def read_gap(text: str, system: System) -> Length:
    """What is to be kept between pieces.

    Raises:
        BadInputError: no length, or more than anybody keeps.
    """
    gap, widest = parse_length(text), Length.from_mm(WIDEST_GAP_MM)
    if gap > widest:
        most = show_length(widest, system, Measure.WIDTH)
        raise BadInputError(
            f"{text!r} is no gap to keep between pieces.", f"Type a length from 0 to {most}."
        )
    return gap


def flaws_on(text: str, between: Length) -> tuple[Flaw, ...]:
    """The flaws typed, on a cloth that is so wide between its selvedges.

    Raises:
        BadInputError: one is none, has no size or far too large a one, or lies beside the cloth.
    """
    found = read_flaws(text)
    for flaw in found:
        _refuse_off(flaw, text, between)
    return found


def _refuse_off(flaw: Flaw, text: str, between: Length) -> None:
    refuse_sizeless(flaw, f"flaw {text!r}")
    if begins(flaw)[1] >= between.mm:
        raise BadInputError(
            f"The flaw {text!r} lies beside the cloth.",
            "Type how far it is along the cloth first, then how far from its left usable edge.",
        )
