"""The words of one outline put together: its own, its layers', and what is doubtful in them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.intake.drawn_words import (
    is_fold,
    is_fold_mark,
    is_grain,
    is_square,
    read_writing,
    size_of_layer,
)
from stash.intake.svg_titles import Said

if TYPE_CHECKING:
    from stash.intake.drawn_shapes import Shape


@dataclass(frozen=True, slots=True)
class Label:
    """What is said of an outline."""

    name: str
    said: Said
    guessed: tuple[str, ...]
    ours: bool
    """In our own words, which also say that the grain runs from left to right."""
    counted: bool
    """The title itself says how many are cut."""
    denied: bool
    """It says that it is not on the fold."""
    fold_mark: str
    """`Fold` alone, written on a piece of which nothing else says whether it is on the fold."""


def read_label(number: int, shape: Shape, size: str) -> Label:
    """The words of the outline `number`; its own come before those of its layers."""
    stroke = shape.stroke
    texts = [text for text in shape.texts if not is_square(text)]
    common = read_writing([*stroke.layers], Said(size=size))
    title = read_writing([stroke.label], common.said)
    # Together, since a title and the writing beside it may complete or contradict each other.
    own = read_writing([stroke.label, *texts], common.said)
    names = [n for n in (*own.names, *common.names[-1:]) if not (is_grain(n) or is_fold(n))]
    names = [name for name in names if not size_of_layer(name)]
    guessed = [] if names else ["it has no name"]
    if not (common.counted or own.counted):
        guessed.append("nothing says how many are cut: taken as one")
    if len(counts := dict.fromkeys(own.counts)) > 1:
        told = " and ".join(map(str, counts))
        guessed.append(f"it says to cut {told}: taken as {own.said.copies}")
    if len(set(own.folds)) > 1:
        guessed.append("it says both on the fold and not: taken to be on the fold")
    guessed += [f"{word!r} is not understood" for word in title.unread if not is_fold(word)]
    marks = [*title.unread, *read_writing(texts, common.said).names]
    marks = [] if own.folds or own.said.on_fold else [mark for mark in marks if is_fold(mark)]
    guessed += [
        f"{mark!r} is written on it: taken for a line to turn when it is sewn"
        for mark in dict.fromkeys(marks)
        if not is_fold_mark(mark)
    ]
    return Label(
        name=names[0] if names else f"piece {number}",
        said=replace(own.said, size=size),
        guessed=tuple(guessed),
        ours=any("|" in text for text in (stroke.label, *shape.texts)),
        counted=title.counted,
        denied=False in own.folds,
        fold_mark=next(filter(is_fold_mark, marks), ""),
    )
