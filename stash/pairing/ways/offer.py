"""Which ways there are to make a role fit a cloth, and why others are not offered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stash.config import System
from stash.lay.problem import LayKind
from stash.pairing.ways.cut import Way, first_cut
from stash.pairing.ways.ease import alteration_for, smaller_sizes
from stash.pairing.ways.offer_pieces import lengths, on_pieces, taking_off
from stash.trade import ways as trade
from stash.trade.ways import Price, WayKind
from stash.units.format_length import Measure, show_length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from stash.cloth.record import Cloth
    from stash.config import Settings
    from stash.garment.make import Make, Person
    from stash.pairing.needs import Question
    from stash.pairing.ways.cut import Cut
    from stash.units.length import Length

ORDER = (
    *(WayKind.VIEW, WayKind.SIZE, WayKind.ALTERATION, WayKind.LENGTH, WayKind.SEAM),
    *(WayKind.DONOR, WayKind.CENTRE, WayKind.PIECING, WayKind.CROSSWISE, WayKind.LAY),
    *(WayKind.NAP, WayKind.MARGIN),
)
"""In which order ways are applied: what chooses other pieces before what changes them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """What the person says about it."""

    barred: frozenset[WayKind] = frozenset()
    """Kinds of ways she does not want."""
    ignore_nap: bool = False
    """Pieces may be turned against the nap: only when she says so."""
    shorter: Length | None = None
    """What she always takes off the length of this garment."""
    seam: Length | None = None
    """The seam allowance in the pieces, where the pattern does not say."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A kind of way that is not offered, and why."""

    kind: WayKind
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What ways are looked for: one role of one make on one cloth."""

    question: Question
    cloth: Cloth
    person: Person | None
    wishes: Wishes
    settings: Settings

    @property
    def system(self) -> System:
        """The units to speak in."""
        return self.settings.system

    @property
    def cut(self) -> Cut:
        """The role as the pattern has it."""
        return self.seamed(first_cut(self.question))

    def seamed(self, cut: Cut) -> Cut:
        """The cut with the seam allowance she typed in the pieces that do not say theirs."""
        seam = self.wishes.seam
        if seam is None:
            return cut
        return cut.with_pieces(
            tuple(
                piece if piece.seam is not None else replace(piece, seam=seam.mm)
                for piece in cut.pieces
            )
        )


def applied(cut: Cut, ways: Iterable[Way]) -> Cut:
    """The cut once all of these ways are taken."""
    for way in sorted(ways, key=lambda way: ORDER.index(way.kind)):
        cut = way.apply(cut)
    return cut


def offers(setting: Setting) -> tuple[tuple[Way, ...], tuple[LeftOut, ...]]:
    """The ways without another cloth, and the kinds that are not offered with the reason."""
    found: list[Way] = []
    left: list[LeftOut] = []
    for kind, offer, why in _OFFERS:
        if kind in setting.wishes.barred:
            left.append(LeftOut(kind=kind, why="You ruled it out."))
            continue
        some = list(offer(setting))
        found += some
        if not some and (words := why(setting)):
            left.append(LeftOut(kind=kind, why=words))
    return tuple(found), tuple(left)


def _alteration(setting: Setting) -> Iterator[Way]:
    found = alteration_for(setting.question, setting.person, setting.wishes.shorter)
    if found is None:
        return
    names, by, whose = found
    amount = show_length(by, setting.system, Measure.WIDTH)
    change = taking_off(names, by)
    if change(setting.cut).area < setting.cut.area:
        yield way(
            *(WayKind.ALTERATION, f"{whose} {amount} shorter", trade.ALTERATION, "alteration"),
            does=f"Take {amount} out across the middle of {' and '.join(sorted(names))}.",
            apply=change,
        )


def _lay(setting: Setting) -> Iterator[Way]:
    kind = setting.question.kind
    if kind in (None, LayKind.OPEN):
        return

    def best(cut: Cut) -> Cut:
        return replace(cut, question=replace(cut.question, kind=None))

    yield way(
        *(WayKind.LAY, f"Not {kind} but as is shortest", trade.LAY, "lay"),
        does="Lay the cloth as the drawing shows: opened out, or folded another way.",
        apply=best,
    )


def _views(setting: Setting) -> Iterator[Way]:
    make, pattern = setting.question.make, setting.question.pattern
    mine = set(setting.cut.pieces)
    for view in pattern.views:
        other = replace(make, view=view)
        pieces = pattern.pieces_for(view, make.size, setting.question.role)
        if view != make.view and pieces and set(pieces) != mine:
            yield way(
                *(WayKind.VIEW, f"View {view}", trade.VIEW, "view"),
                does=f"Cut view {view} of the pattern in place of {make.view or 'this one'}.",
                apply=_as_make(setting, other, "view"),
            )


def _sizes(setting: Setting) -> Iterator[Way]:
    question = setting.question
    for size, words in smaller_sizes(question, setting.cloth, setting.person, setting.system):
        other = replace(question.make, size=size)
        yield way(
            *(WayKind.SIZE, f"Size {size}", trade.SIZE, "size"),
            does=f"Cut size {size} in place of {question.make.size}: {words}.",
            apply=_as_make(setting, other, "size"),
        )


def _as_make(setting: Setting, other: Make, what: str) -> Callable[[Cut], Cut]:
    """The pieces of another view or size; the rest of the make stays as it is by then."""

    def change(cut: Cut) -> Cut:
        make = replace(cut.question.make, **{what: getattr(other, what)})
        return setting.seamed(first_cut(replace(setting.question, make=make)))

    return change


def _margin(setting: Setting) -> Iterator[Way]:
    del setting
    yield way(
        *(WayKind.MARGIN, "Accept less margin", trade.MARGIN, "margin"),
        does="Cut it although less than your usual margin is left.",
        apply=lambda cut: replace(cut, spare_margin=False),
    )


def _nap(setting: Setting) -> Iterator[Way]:
    if not (setting.cloth.nap and setting.wishes.ignore_nap):
        return

    def turned(cut: Cut) -> Cut:
        return replace(cut, question=replace(cut.question, nap=False))

    yield way(
        *(WayKind.NAP, "Ignore the nap", trade.NAP, "nap"),
        does="Turn some pieces head to foot against the nap, as you said you may.",
        apply=turned,
    )


def way(
    kind: WayKind,
    name: str,
    price: Price,
    group: str,
    *,
    does: str,
    apply: Callable[[Cut], Cut],
) -> Way:
    """A way at its price."""
    return Way(
        kind=kind,
        name=name,
        does=does,
        costs=price.words,
        cost=price.cost,
        group=group,
        apply=apply,
    )


def _no_lay(setting: Setting) -> str:
    kind = setting.question.kind
    if kind is LayKind.OPEN:
        return "It is laid open already, and no kind of lay is shorter than that."
    return "It is laid in the shortest of all kinds already: open, folded, gate or crossways."


def _no_seam(setting: Setting) -> str:
    if any(piece.seam is not None for piece in setting.cut.pieces):
        return "The seam allowance is as small as it should be."
    seam = "5/8in" if setting.system is System.IMPERIAL else "15mm"
    return f"Nobody said how wide the seam allowance of the pieces is; --seam {seam} says it."


def _no_size(setting: Setting) -> str:
    return (
        "No smaller size is known to leave enough ease: that takes the person's measures and the "
        "finished measures of that size."
    )


def _no_nap(setting: Setting) -> str:
    if not setting.cloth.nap:
        return ""
    return "The nap is kept. --ignore-nap, if you can live with two shades, tries without it."


def _no_pieces(words: str) -> Callable[[Setting], str]:
    return lambda _: words


_OFFERS: tuple[
    tuple[WayKind, Callable[[Setting], Iterable[Way]], Callable[[Setting], str]], ...
] = (
    (WayKind.ALTERATION, _alteration, _no_pieces("")),
    (WayKind.LAY, _lay, _no_lay),
    (
        WayKind.CROSSWISE,
        lambda s: on_pieces(WayKind.CROSSWISE, s.cut, s.cloth, s.system),
        _no_pieces("No piece may be turned that is not turned already."),
    ),
    (
        WayKind.PIECING,
        lambda s: on_pieces(WayKind.PIECING, s.cut, s.cloth, s.system),
        _no_pieces("No long piece lies where a seam across it would be hidden."),
    ),
    (WayKind.SEAM, lambda s: on_pieces(WayKind.SEAM, s.cut, s.cloth, s.system), _no_seam),
    (
        WayKind.CENTRE,
        lambda s: on_pieces(WayKind.CENTRE, s.cut, s.cloth, s.system),
        _no_pieces("No piece is cut on the fold."),
    ),
    (
        WayKind.LENGTH,
        lambda s: lengths(s.cut, s.system),
        _no_pieces("No piece is known by its name as part of the length."),
    ),
    (WayKind.VIEW, _views, _no_pieces("The pattern has no other view that is cut otherwise.")),
    (WayKind.SIZE, _sizes, _no_size),
    (WayKind.MARGIN, _margin, _no_pieces("")),
    (WayKind.NAP, _nap, _no_nap),
)
