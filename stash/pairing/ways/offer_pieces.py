"""Ways that change single pieces: turned, seamed, pieced, with less allowance, shorter."""

from __future__ import annotations

from functools import partial
from itertools import takewhile
from typing import TYPE_CHECKING

from stash.cloth.record import Structure
from stash.garment.pattern import Grain
from stash.geometry.ring import bounds
from stash.pairing.ways.cut import (
    Names,
    Way,
    crosswise,
    each,
    pieced,
    shorter,
    with_centre_seam,
    with_less_seam,
)
from stash.trade import ways as trade
from stash.trade.part_words import (
    HIDDEN,
    LENGTHS,
    MAY_BE_PIECED,
    MAY_GO_CROSSWISE,
    Part,
    is_back,
    is_front,
    part_of,
)
from stash.trade.ways import Price, WayKind
from stash.units.format_length import Measure, show_length
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.garment.pattern import Kind, Piece
    from stash.pairing.ways.cut import Cut, Pieces

LONG_ENOUGH_MM = 200.0
"""A piece shorter than this gains nothing by a seam across it."""
OF_THE_LONGEST = 0.5
"""A piece this long beside the longest of its part carries the length of the garment."""
SEAMED_AS_ONE = frozenset({Part.COLLAR, Part.STAND, Part.CUFF})
"""A seam down the middle of these would be seen at the neck or the wrist."""


def on_pieces(kind: WayKind, cut: Cut, cloth: Cloth, system: System) -> Iterator[Way]:
    """The ways of one kind that are done to pieces."""
    yield from {
        WayKind.CROSSWISE: _crosswise,
        WayKind.PIECING: _piecing,
        WayKind.CENTRE: _centre,
        WayKind.SEAM: _less_seam,
    }[kind](cut, cloth, system)


def group_of(kind: WayKind, part: Part | None, name: str = "") -> str:
    """A hidden part is helped in one way only; others in one of each kind."""
    return f"part {part}" if part in HIDDEN else f"{kind} {name or part}"


def seam_of(piece: Piece) -> float:
    """Millimetres a new seam in this piece takes on either side."""
    return trade.USUAL_SEAM_MM if piece.seam is None else piece.seam


def _way(
    kind: WayKind,
    name: str,
    price: Price,
    group: str,
    does: str,
    names: Names,
    change: Callable[[Piece], Pieces | None],
) -> Way:
    return Way(
        kind=kind,
        name=name[:1].upper() + name[1:],
        does=does,
        costs=price.words,
        cost=price.cost,
        group=group,
        apply=lambda cut: each(cut, names, change),
    )


def _named(cut: Cut, part: Part) -> tuple[Piece, ...]:
    return tuple(piece for piece in cut.pieces if part_of(piece.name) is part)


def _crosswise(cut: Cut, cloth: Cloth, _: System) -> Iterator[Way]:
    if cloth.structure is Structure.KNIT:
        return  # bands of a knit must stretch across
    for part in (part for part in Part if part in MAY_GO_CROSSWISE):
        hidden = part in HIDDEN
        names = frozenset(p.name for p in _named(cut, part) if p.grain is Grain.LENGTHWISE)
        if not names or not (hidden or not (cloth.nap or cloth.repeat_length)):
            continue  # what is seen shades or matches otherwise the other way round
        price = trade.CROSSWISE_HIDDEN if hidden else trade.CROSSWISE_SEEN
        yield _way(
            *(WayKind.CROSSWISE, f"{_listed(names)} crosswise", price),
            group_of(WayKind.CROSSWISE, part),
            f"Let the grain line of {_listed(names)} run across the cloth.",
            names,
            crosswise,
        )


def _piecing(cut: Cut, _: Cloth, system: System) -> Iterator[Way]:
    for piece in cut.pieces:
        part = part_of(piece.name)
        low, _bottom, high, _top = bounds(piece.outline)
        seam = seam_of(piece)
        able = part in MAY_BE_PIECED and high - low >= LONG_ENOUGH_MM
        if not able or pieced(piece, seam) is None:
            continue
        yield _way(
            *(WayKind.PIECING, f"{piece.name} in two parts", trade.PIECING),
            group_of(WayKind.PIECING, part, piece.name),
            f"Cut {piece.name} in two across its middle, each part with "
            f"{_small(seam, system)} more for the seam; put that seam at the side or the back.",
            frozenset({piece.name}),
            partial(pieced, seam=seam),
        )


def _centre(cut: Cut, cloth: Cloth, system: System) -> Iterator[Way]:
    for piece in cut.pieces:
        part = part_of(piece.name)
        if not piece.on_fold or part in SEAMED_AS_ONE:
            continue
        price, seam = _centre_price(piece, part), seam_of(piece)
        if cloth.repeat_length and part not in HIDDEN:
            more = trade.ACROSS_PRINT
            price = Price(price.cost + more.cost, f"{price.words} {more.words}")
        yield _way(
            *(WayKind.CENTRE, f"{piece.name} with a centre seam", price),
            group_of(WayKind.CENTRE, part, piece.name),
            f"Cut {piece.name} as two halves with {_small(seam, system)} more at the centre "
            "of each, and sew them together first.",
            frozenset({piece.name}),
            partial(with_centre_seam, seam=seam),
        )


def _centre_price(piece: Piece, part: Part | None) -> Price:
    if part in HIDDEN:
        return trade.CENTRE_HIDDEN
    if is_front(piece.name):
        return trade.CENTRE_FRONT
    return trade.CENTRE_BACK if is_back(piece.name) else trade.CENTRE_OTHER


def _less_seam(cut: Cut, cloth: Cloth, system: System) -> Iterator[Way]:
    least = trade.LEAST_SEAM_MM.get(cloth.structure, trade.LEAST_SEAM_OTHERS_MM)
    names = frozenset(p.name for p in cut.pieces if with_less_seam(p, least) is not None)
    if names:
        yield _way(
            *(WayKind.SEAM, f"seam allowances of {_small(least, system)}", trade.SEAM, "seam"),
            f"Trim the paper to {_small(least, system)} of seam allowance all round, and sew that "
            "much from the edge; hems turn up by as much less.",
            names,
            partial(with_less_seam, least=least),
        )


def lengths(cut: Cut, system: System) -> Iterator[Way]:
    """The garment shorter, step by step, as far as it stays itself."""
    step = trade.LENGTH_STEP_MM[system]
    for part, names in length_parts(cut):
        for times in range(1, int(_most(cut.question.pattern.kind) / step) + 1):
            by = Length.from_mm(step * times)
            change = taking_off(names, by)
            if change(cut).area >= cut.area:
                break
            amount = show_length(by, system, Measure.WIDTH)
            what = "" if part is Part.BODY else f"{part} "
            yield Way(
                kind=WayKind.LENGTH,
                name=f"{what}{amount} shorter".strip().capitalize(),
                does=f"Fold {amount} out across the middle of {_listed(names)} and true the sides;"
                " or off a hem that is deep enough.",
                costs=trade.LENGTH_PER_CM.words,
                cost=trade.LENGTH_PER_CM.cost * by.mm / 10,
                group=f"length {part}",
                apply=change,
            )


def _most(kind: Kind) -> float:
    return trade.MOST_SHORTER_MM[kind.value] + 0.001


def length_parts(cut: Cut) -> tuple[tuple[Part, Names], ...]:
    """The parts whose pieces carry the length, with these pieces' names."""
    found: list[tuple[Part, Names]] = []
    for part in LENGTHS:
        pieces = [p for p in _named(cut, part) if p.grain in (Grain.LENGTHWISE, Grain.EITHER)]
        long = max((_long(p) for p in pieces), default=0.0)
        names = frozenset(p.name for p in pieces if _long(p) >= OF_THE_LONGEST * long)
        if names:
            found.append((part, names))
    # Below a skirt the body ends at the waist: only the skirt gives up length.
    if any(part is Part.SKIRT for part, _ in found):
        found = list(takewhile(lambda one: one[0] is not Part.BODY, found))
    return tuple(found)


def taking_off(names: Names, by: Length) -> Callable[[Cut], Cut]:
    """Makes pieces of these names so much shorter."""
    return lambda cut: each(cut, names, partial(shorter, by=by.mm))


def _long(piece: Piece) -> float:
    low, _, high, _ = bounds(piece.outline)
    return high - low


def _small(mm: float, system: System) -> str:
    return show_length(Length.from_mm(mm), system, Measure.SMALL)


def _listed(names: Names) -> str:
    *first, last = sorted(names)
    return f"{', '.join(first)} and {last}" if first else last
