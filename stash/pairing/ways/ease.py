"""What the person's measures say: a smaller size that still has ease, a length always taken out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.cloth.record import Structure
from stash.garment.measures import by_name
from stash.garment.pattern import Kind
from stash.garment.sizing import size_labels
from stash.pairing.ways.cut import first_cut
from stash.pairing.ways.offer_pieces import length_parts
from stash.trade.ease import LEAST_EASE, NO_EASE
from stash.trade.part_words import Part
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.garment.make import Person
    from stash.garment.pattern import Pattern, Size
    from stash.pairing.needs import Question
    from stash.pairing.ways.cut import Names

LEAST_CHANGE = Length.from_mm(5)
"""Less is within what a tape measures (common practice)."""
TROUSERS = (Kind.TROUSERS_ELASTIC, Kind.TROUSERS_TAILORED, Kind.PYJAMAS)


def smaller_sizes(
    question: Question, cloth: Cloth, person: Person | None, system: System
) -> Iterator[tuple[str, str]]:
    """Sizes below the make's that leave this person enough ease, with the words for it."""
    pattern, make = question.pattern, question.make
    labels = size_labels(pattern)
    if person is None or make.size not in labels:
        return
    by_label = {size.label: size for size in pattern.sizes}
    for label in reversed(labels[: labels.index(make.size)]):
        if label not in by_label or not pattern.pieces_for(make.view, label, question.role):
            continue
        words = _ease_words(by_label[label], person, cloth, pattern, system)
        if not words:
            return  # a smaller one still has less
        yield label, words


def _ease_words(size: Size, person: Person, cloth: Cloth, pattern: Pattern, system: System) -> str:
    """How much ease is left at each girth; empty where it is too little or cannot be told."""
    finished, body = by_name(size.finished), by_name(person.measures)
    knit = cloth.structure is Structure.KNIT and _is_for_knit(pattern)
    said = []
    for girth, least in LEAST_EASE.items():
        if girth not in finished:
            continue
        about = body.get(f"{girth} girth", body.get(girth))
        if about is None:
            return ""
        ease = finished[girth] - about
        if ease < (NO_EASE if knit else least):
            return ""
        said.append(f"{show_length(ease, system, Measure.WIDTH)} of ease are left at the {girth}")
    return ", ".join(said)


def _is_for_knit(pattern: Pattern) -> bool:
    return any(asks.structures == (Structure.KNIT,) for asks in pattern.asks)


def alteration_for(
    question: Question, person: Person | None, shorter: Length | None
) -> tuple[Names, Length, str] | None:
    """Pieces, how much is always taken out of their length, and whose alteration that is.

    As typed; else by how much the person's inside leg, or back waist length, is shorter than the
    size is drawn for.
    """
    parts = length_parts(first_cut(question))
    if not parts:
        return None
    if shorter is not None:
        return parts[0][1], shorter, "As always"
    if person is None:
        return None
    trousers = question.pattern.kind in TROUSERS
    wanted = "inside leg height" if trousers else "back waist length"
    size = next((s for s in question.pattern.sizes if s.label == question.make.size), None)
    drawn = by_name(size.body).get(wanted) if size is not None else None
    own = by_name(person.measures).get(wanted)
    if drawn is None or own is None or drawn - own < LEAST_CHANGE:
        return None
    body = dict(parts)
    names = body.get(Part.LEG, body.get(Part.BODY)) if trousers else body.get(Part.BODY)
    return None if names is None else (names, drawn - own, f"For {person.name}")
