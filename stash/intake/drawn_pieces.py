"""From lines and writing to pattern pieces: what was found, what was guessed, what is wrong."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.errors import BadInputError
from stash.garment.pattern import Grain, Piece
from stash.geometry.ring import bounds
from stash.intake.drawn import Means
from stash.intake.drawn_label import Label, read_label
from stash.intake.drawn_notches import laid_notches
from stash.intake.drawn_place import (
    Placed,
    halves_apart,
    has_fold_edge,
    lay_along,
    lay_on_fold,
    refuse_unlayable,
    upper_fold,
    upward,
)
from stash.intake.drawn_rings import SAME_MM, join_strokes
from stash.intake.drawn_scale import find_square, stretch
from stash.intake.drawn_shapes import Shape, find_shapes, straight
from stash.intake.drawn_words import is_aside, is_fold, is_grain, read_writing, size_of_layer
from stash.intake.svg_titles import MARK, Said
from stash.lay.problem import Shape as LayShape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.geometry.ring import FloatRing
    from stash.intake.drawn import Drawing, Stroke
    from stash.intake.drawn_place import Line

UP, ALONG = (0.0, -1.0), (1.0, 0.0)
DIRECTIONS = {"up": UP, "across": ALONG}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What somebody said about a drawing."""

    size: str = ""
    """Only what is drawn for this size, and for every size; empty: all sizes."""
    square: float | None = None
    """The side of the test square in mm, where the drawing does not say it."""
    grain: str = ""
    """`up` or `across` the sheet, where no line says it."""
    sizes: tuple[str, ...] = ()
    """Labels that may be the names of layers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """An outline that may be a piece."""

    number: int
    """From 1, in the order of the drawing."""
    name: str
    size: str
    piece: Piece | None
    """None: it cannot be used; `wrong` says why."""
    likely: bool
    """It is a piece unless somebody says otherwise."""
    guessed: tuple[str, ...] = ()
    wrong: tuple[str, ...] = ()
    line: FloatRing = ()
    """As it is drawn on the sheet, where it cannot be used; its first point is not repeated."""
    closed: bool = True
    """Whether that line is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """All that was made out of a drawing."""

    file: str
    found: tuple[Found, ...]
    sizes: tuple[str, ...]
    """The sizes that are drawn apart from one another."""
    notes: tuple[str, ...]


def read_sheet(drawing: Drawing, asked: Asked) -> Sheet:
    """The pieces of a drawing.

    Raises:
        BadInputError: Nothing closed is drawn, or the size asked for is not.
    """
    drawing.strokes = [s for s in drawing.strokes if not any(map(is_aside, s.layers))]
    if not drawing.strokes:
        raise BadInputError(f"{drawing.file} holds no lines.", "Choose a file with drawn outlines.")
    drawing.strokes = _without_square(drawing, asked)
    by_size = _by_size(drawing.strokes, asked.sizes)
    sizes = tuple(size for size in by_size if size)
    wanted = _wanted_sizes(drawing.file, by_size, asked.size)
    found: list[Found] = []
    for size in wanted:
        strokes = by_size[size] if size == "" else [*by_size[size], *_marks(by_size.get("", ()))]
        part = replace(drawing, strokes=strokes)
        for shape in find_shapes(part, join_strokes(strokes)):
            found.append(_found(len(found) + 1, shape, size, asked, drawing))
    if not found:
        raise _nothing(drawing)
    if notches := sum(len(one.piece.notches) for one in found if one.piece):
        drawing.note(f"Notches are read with their pieces: {notches} in all")
    return Sheet(
        file=drawing.file,
        found=tuple(_named_apart(found)),
        sizes=sizes,
        notes=tuple(drawing.notes),
    )


def _nothing(drawing: Drawing) -> BadInputError:
    told = f"{drawing.file} holds no closed outline as large as a piece"
    if drawing.true_size:
        hint = "Draw each piece as one closed line at its true size"
        if drawing.unit_may_be_said:
            hint += ", or say the unit the file is really in: --unit mm, cm or in"
        return BadInputError(f"{told}.", f"{hint}.")
    return BadInputError(
        f"{told}, and it does not say how large it is.",
        "Say the unit of a DXF (--unit in), or give the drawing a real width and height.",
    )


def _without_square(drawing: Drawing, asked: Asked) -> list[Stroke]:
    """The strokes at true scale, the test square taken out."""
    joined = join_strokes(drawing.strokes)
    square = find_square(joined, drawing.writings, asked.square)
    if square is None:
        if asked.square is not None:
            raise BadInputError(
                f"{drawing.file} has no square called a test square.",
                "Title it 'test square', or leave its size out.",
            )
        if not drawing.true_size:
            drawing.note("No test square was found: measure one piece before cutting")
        return drawing.strokes
    told = f"The test square measures {square.measured:.1f} mm"
    if square.said is None:
        drawing.note(f"{told}, and nothing says how large it should be: say its size")
    elif square.factor == 1.0:
        drawing.note(f"{told}, as it says")
    else:
        drawing.note(
            f"{told} and should measure {square.said:g} mm: "
            f"everything is made {square.factor:.4g} times as large"
        )
        ring = joined[square.stroke_at].stroke.points
        drawing.strokes = [s for s in drawing.strokes if not _part_of(s, ring)]
        stretch(drawing, square.factor)
        return drawing.strokes
    ring = joined[square.stroke_at].stroke.points
    return [s for s in drawing.strokes if not _part_of(s, ring)]


def _part_of(stroke: Stroke, ring: Sequence[tuple[float, float]]) -> bool:
    corners = set(ring)
    return all(point in corners for point in stroke.points)


def _by_size(strokes: Sequence[Stroke], known: Sequence[str]) -> dict[str, list[Stroke]]:
    """The strokes by the size they are drawn for; those for every size under an empty text."""
    sorted_out: dict[str, list[Stroke]] = {}
    for stroke in strokes:
        texts = [*stroke.layers, *([stroke.label] if stroke.titled else [])]
        size = read_writing([t for t in texts if "|" in t], Said()).said.size
        for layer in stroke.layers:
            size = size or size_of_layer(layer, known)
        if not size and stroke.titled:
            size = read_writing([stroke.label], Said()).said.size
        sorted_out.setdefault(size, []).append(stroke)
    return sorted_out


def _marks(strokes: Sequence[Stroke]) -> list[Stroke]:
    """Grain lines, folds, notches and match points drawn once for all sizes."""
    return [
        s
        for s in strokes
        if s.means is Means.NOTCH
        or (s.means is not Means.OUTLINE and (straight(s) is not None or s.label.lower() == MARK))
    ]


def _wanted_sizes(file: str, by_size: dict[str, list[Stroke]], size: str) -> list[str]:
    if not size:
        return list(by_size)
    if size in by_size:
        return [size, *([""] if "" in by_size else [])]
    known = ", ".join(s for s in by_size if s)
    if not known:
        raise BadInputError(f"{file} draws no sizes apart.", "Leave the size out.")
    raise BadInputError(f"{file} holds no size {size!r}.", f"Its sizes: {known}.")


def _found(number: int, shape: Shape, size: str, asked: Asked, drawing: Drawing) -> Found:
    stroke = shape.stroke
    label = read_label(number, shape, size)
    guessed = list(label.guessed)
    guessed += shape.mended
    if shape.gap > SAME_MM:
        guessed.append(f"a gap of {shape.gap:.1f} mm in its outline is closed")
    if len(shape.marks) > 1:
        shape.wrong.append(f"it has {len(shape.marks)} match points")
    piece = None
    if not shape.wrong:
        try:
            piece = _piece(label, shape, asked, guessed)
        except BadInputError as error:
            shape.wrong.append(f"{error.message.rstrip('.')}. {error.hint}".strip(" ."))
    nested = shape.inside is not None and not (stroke.titled or label.counted)
    if nested:
        guessed.append("it lies inside another outline: a line to sew or a pocket's place?")
    return Found(
        number=number,
        name=label.name,
        size=size,
        piece=piece,
        likely=not nested,
        guessed=tuple(guessed),
        wrong=tuple(shape.wrong),
        line=() if piece else tuple(stroke.points),
        closed=stroke.closed,
    )


def _piece(label: Label, shape: Shape, asked: Asked, guessed: list[str]) -> Piece:
    name, said, ours = label.name, label.said, label.ours
    ring, fold = shape.stroke.points, _fold_of(shape)
    direction = _direction(shape, asked, guessed, ours)
    on_fold = said.on_fold or fold is not None
    if on_fold and fold is not None and halves_apart(ring, fold):
        on_fold = False
        guessed.append("its fold line runs through it: both halves are drawn")
    elif fold is not None and label.denied and not said.on_fold:
        guessed.append("its fold line is drawn, but it says not on fold: taken to be on the fold")
    elif fold is None and label.fold_mark:
        on_fold = has_fold_edge(ring, direction)
        told = "cut on the fold" if on_fold else "whole, as no straight edge lies along its grain"
        guessed.append(f"{label.fold_mark!r} is written on it: taken to be {told}")
    if on_fold:
        if fold is None and ours:
            fold = upper_fold(ring, direction, guessed)
        placed = lay_on_fold(ring, direction, fold, ours)
        if fold is None and not ours:
            guessed.append("its fold is taken to be its longest straight edge along the grain")
    else:
        placed = lay_along(ring, direction)
    refuse_unlayable(LayShape(name, placed.ring, said.copies, on_fold), "it")
    return Piece(
        name=name,
        outline=placed.ring,
        copies=said.copies,
        on_fold=on_fold,
        mirrored=said.mirrored,
        grain=Grain.CROSSWISE if placed.crosswise else said.grain,
        role=said.role,
        size=said.size,
        views=said.views,
        tolerance=said.tolerance,
        seam=said.seam,
        match=_mark(shape, placed),
        notches=laid_notches(shape.notches, placed.place, on_fold=on_fold),
    )


def _mark(shape: Shape, placed: Placed) -> tuple[float, float] | None:
    if not shape.marks:
        return None
    x, y = placed.place(shape.marks[0])
    return round(x, 3), round(y, 3)


def _fold_of(shape: Shape) -> Line | None:
    lines = [
        line
        for stroke, line in shape.lines
        if stroke.means is Means.FOLD or (stroke.means is Means.UNSAID and is_fold(stroke.label))
    ]
    return lines[0] if lines else None


def _direction(shape: Shape, asked: Asked, guessed: list[str], ours: bool) -> tuple[float, float]:
    """Which way the grain runs on the sheet."""
    sure = [
        line
        for stroke, line in shape.lines
        if stroke.means is Means.GRAIN or (stroke.means is Means.UNSAID and is_grain(stroke.label))
    ]
    if sure:
        return upward(sure[0])
    if asked.grain:
        return DIRECTIONS[asked.grain]
    if ours:
        return ALONG
    left, top, right, low = bounds(shape.stroke.points)
    for stroke, (a, b) in shape.lines:
        plain = stroke.means is Means.UNSAID and not is_fold(stroke.label)
        if plain and max(abs(a[0] - b[0]), abs(a[1] - b[1])) >= 0.2 * max(right - left, low - top):
            guessed.append("its grain is taken from the longest straight line in it")
            return upward((a, b))
    guessed.append("no line shows its grain: taken to run up the sheet")
    return UP


def _named_apart(found: Sequence[Found]) -> list[Found]:
    """Pieces of one size under names of their own."""
    taken: set[tuple[str, str]] = set()
    named = []
    for one in found:
        name, again = one.name, 1
        while (name.lower(), one.size) in taken:
            again += 1
            name = f"{one.name} {again}"
        taken.add((name.lower(), one.size))
        piece = replace(one.piece, name=name) if one.piece else None
        named.append(replace(one, name=name, piece=piece))
    return named
