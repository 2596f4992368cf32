"""How a role would be cut: its pieces, and what was done to them to save cloth."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from stash.garment.pattern import Grain
from stash.geometry.edge_tick import edge_tick
from stash.geometry.recut import in_two, shortened, shortener, trimmed, with_strip
from stash.geometry.ring import bounds, open_out, signed_area
from stash.lay.forms import flatten_fold

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from stash.garment.pattern import Piece
    from stash.geometry.ring import FloatRing
    from stash.pairing.needs import Question
    from stash.trade.ways import WayKind

HAIR = 0.01
"""Millimetres within which corners lie at one end."""
Names = frozenset[str]
Pieces = tuple["Piece", ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A role as it would be cut."""

    question: Question
    """On what, and how; its pattern holds just the pieces cut from the cloth itself."""
    given: Mapping[int, Pieces] = field(default_factory=dict)
    """By the id of another cloth, the pieces cut from that."""
    spare_margin: bool = True
    """The usual margin has to be left; else it need only be enough."""

    @property
    def pieces(self) -> Pieces:
        """The pieces cut from the cloth itself."""
        return self.question.pattern.pieces

    @property
    def area(self) -> float:
        """Of all copies cut from the cloth itself, mm²."""
        return sum(area_of(piece) for piece in self.pieces)

    def with_pieces(self, pieces: Pieces) -> Cut:
        """The same with other pieces."""
        question = self.question
        pattern = replace(question.pattern, pieces=pieces)
        return replace(self, question=replace(question, pattern=pattern))


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One move: what is done, what it costs the garment, and how it changes the cut."""

    kind: WayKind
    name: str
    """A few words: `Waistband crosswise`."""
    does: str
    """What to do, in a sentence."""
    costs: str
    """What it costs the garment, in words."""
    cost: float
    """On the scale of `trade.ways`."""
    group: str
    """Of two ways of one group only one is taken."""
    apply: Callable[[Cut], Cut] = field(compare=False, repr=False)
    donor: int | None = None
    """The cloth something is cut from instead."""


def first_cut(question: Question) -> Cut:
    """The role cut as the pattern says: only its own pieces, of its view and size."""
    make = question.make
    pieces = question.pattern.pieces_for(make.view, make.size, question.role)
    return Cut(question=replace(question, pattern=replace(question.pattern, pieces=pieces)))


def area_of(piece: Piece) -> float:
    """Of all its copies, mm²."""
    return piece.copies * abs(signed_area(piece.outline)) * (2 if piece.on_fold else 1)


def each(cut: Cut, names: Names, change: Callable[[Piece], Pieces | None]) -> Cut:
    """The cut with the pieces of these names changed; None leaves a piece as it is."""
    pieces: list[Piece] = []
    for piece in cut.pieces:
        found = change(piece) if piece.name in names else None
        pieces += (piece,) if found is None else found
    return cut.with_pieces(tuple(pieces))


def crosswise(piece: Piece) -> Pieces | None:
    """Its length may run across the cloth as well."""
    return (replace(piece, grain=Grain.EITHER),) if piece.grain is Grain.LENGTHWISE else None


def with_centre_seam(piece: Piece, seam: float) -> Pieces | None:
    """Two halves with `seam` mm added at the centre, for a piece on the fold."""
    outline = _folded(piece) if piece.on_fold else None
    if outline is None:
        return None
    match = None if piece.match is None else (piece.match[0], seam)
    return (
        replace(
            piece,
            outline=with_strip(outline, seam),
            copies=2 * piece.copies,
            on_fold=False,
            mirrored=True,
            match=match,
            notches=tuple((x, y + seam) for x, y in piece.notches),
        ),
    )


def _folded(piece: Piece) -> FloatRing | None:
    """Its outline with the fold edge exactly on y = 0; None where it has no such edge."""
    flat = flatten_fold(piece.outline)
    edges = zip(flat, flat[1:] + flat[:1], strict=True)
    return flat if any(a[1] == b[1] == 0 and a[0] != b[0] for a, b in edges) else None


def pieced(piece: Piece, seam: float) -> Pieces | None:
    """Two parts with a seam across, `seam` mm added to each; None for a piece on the fold."""
    parts = None if piece.on_fold else in_two(piece.outline, seam)
    if parts is None:
        return None
    left, _, right, _ = bounds(piece.outline)
    middle = (left + right) / 2
    before = tuple(notch for notch in piece.notches if notch[0] <= middle)
    after = tuple(notch for notch in piece.notches if notch[0] > middle)
    first, second = (
        replace(piece, name=f"{piece.name} part {number}", outline=part, match=None)
        for number, part in enumerate(parts, start=1)
    )
    return (
        replace(first, notches=_beside(piece.outline, first.outline, before, min)),
        replace(second, notches=_beside(piece.outline, second.outline, after, max)),
    )


def _beside(
    ring: FloatRing, part: FloatRing, notches: FloatRing, end: Callable[[Iterable[float]], float]
) -> FloatRing:
    """Notches of a ring on the part of it that holds its left (`min`) or right (`max`) end."""
    was, now = _tip(ring, end), _tip(part, end)
    return tuple((x - was[0] + now[0], y - was[1] + now[1]) for x, y in notches)


def _tip(ring: FloatRing, end: Callable[[Iterable[float]], float]) -> tuple[float, float]:
    """The highest corner at one end of a ring."""
    far = end(x for x, _ in ring)
    return far, max(y for x, y in ring if abs(x - far) <= HAIR)


def shorter(piece: Piece, by: float) -> Pieces | None:
    """The piece `by` mm shorter along its grain."""
    outline, moved = shortened(piece.outline, by), shortener(piece.outline, by)
    if outline is None or moved is None:
        return None
    match = None if piece.match is None else (moved(piece.match[0]), piece.match[1])
    notches = tuple((moved(x), y) for x, y in piece.notches)
    return (replace(piece, outline=outline, match=match, notches=notches),)


def with_less_seam(piece: Piece, least: float) -> Pieces | None:
    """The piece with its seam allowance brought down to `least` mm, where it is known."""
    if piece.seam is None or piece.seam <= least:
        return None
    whole = _folded(piece) if piece.on_fold else piece.outline
    if whole is None:
        return None
    outline = trimmed(whole, piece.seam - least, on_fold=piece.on_fold)
    if outline is None:
        return None
    edge = open_out(outline) if piece.on_fold else outline
    cut = [edge_tick(edge, notch, least)[0] for notch in piece.notches]
    notches = tuple((x, max(y, 0.0) if piece.on_fold else y) for x, y in cut)
    return (replace(piece, outline=outline, notches=notches, seam=least),)


def without(cut: Cut, names: Names, cloth: int, *, half: bool) -> Cut:
    """The pieces of these names cut from another cloth; with `half` only the inside ones."""
    kept: list[Piece] = []
    moved: list[Piece] = []
    for piece in cut.pieces:
        if piece.name not in names:
            kept.append(piece)
        elif half:
            kept.append(replace(piece, copies=piece.copies // 2))
            moved.append(replace(piece, copies=piece.copies // 2))
        else:
            moved.append(piece)
    given = dict(cut.given)
    given[cloth] = given.get(cloth, ()) + tuple(moved)
    return replace(cut.with_pieces(tuple(kept)), given=given)
