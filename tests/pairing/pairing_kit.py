"""Invented cloths, patterns and makes for the tests of judging."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

from stash.cloth.record import Cloth, FibreShare, Hand, Structure
from stash.config import Settings
from stash.garment.make import Make
from stash.garment.pattern import Asks, ChartRow, Kind, Pattern, Piece, Role
from stash.pairing.filling import Shelf
from stash.pairing.needs import Needs
from stash.pairing.plan import season_plan
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.make import Promise
    from stash.lay.result import Lay
    from stash.pairing.judgement import SeasonPlan

TODAY = date(2025, 9, 1)
SETTINGS = Settings()


def cm(value: float) -> Length:
    return Length.from_mm(10 * value)


class Book:
    """Lays kept in memory."""

    def __init__(self) -> None:
        self.lays: dict[str, Lay] = {}

    def get(self, key: str) -> Lay | None:
        return self.lays.get(key)

    def put(self, key: str, lay: Lay) -> None:
        self.lays[key] = lay


def fibres(content: str) -> tuple[FibreShare, ...]:
    """`cotton 95 elastane 5` as shares."""
    words = content.split()
    return tuple(
        FibreShare(name, float(share)) for name, share in zip(words[::2], words[1::2], strict=True)
    )


def cloth(name: str = "plain cotton", **changes: Any) -> Cloth:
    base = Cloth(
        id=1,
        name=name,
        structure=Structure.WOVEN,
        fibres=fibres("cotton 100"),
        width=cm(142),
        bought=cm(300),
        left=cm(300),
        washed=True,
        weight=130.0,
        hand=Hand.MEDIUM,
    )
    return replace(base, **changes)


def strip(name: str, long: float, wide: float, **changes: Any) -> Piece:
    """A rectangular piece, centimetres."""
    x, y = 10 * long, 10 * wide
    return replace(Piece(name=name, outline=((0, 0), (x, 0), (x, y), (0, y))), **changes)


def pattern(kind: Kind = Kind.SHIRT, pieces: tuple[Piece, ...] = (), **changes: Any) -> Pattern:
    base = Pattern(id=1, name="Ferryman", kind=kind, pieces=pieces or (strip("front", 100, 40),))
    return replace(base, **changes)


def charted(amount: float, width: float = 140, **changes: Any) -> Pattern:
    """A pattern known only by one row of its chart, centimetres, enough for cloth with nap."""
    row = ChartRow(size="M", width=cm(width), amount=cm(amount), with_nap=True)
    return (
        pattern(**({"charts": (row,)} | changes))
        if changes.get("pieces")
        else replace(Pattern(id=1, name="Ferryman", kind=Kind.SHIRT, charts=(row,)), **changes)
    )


def make(name: str = "grey one", **changes: Any) -> Make:
    return replace(Make(id=1, name=name, pattern_id=1, size="M"), **changes)


def asking(**asks: Any) -> tuple[Asks, ...]:
    return (Asks(role=Role.MAIN, **asks),)


def plan_for(
    makes: Sequence[Make],
    patterns: Sequence[Pattern],
    cloths: Sequence[Cloth],
    promises: Sequence[Promise] = (),
    book: Book | None = None,
    settings: Settings = SETTINGS,
) -> SeasonPlan:
    shelf = Shelf(
        makes=makes,
        patterns={p.id: p for p in patterns},
        cloths={c.id: c for c in cloths},
        promises=promises,
        people={},
    )
    return season_plan(shelf, Needs(book or Book()), settings, TODAY)


def given(plan: SeasonPlan) -> dict[int, int | None]:
    return {r.make_id: r.pairing.cloth_id if r.pairing else None for r in plan.roles}
