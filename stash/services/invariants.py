"""What must be true of the records of a stash, and what to do where it is not."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.cloth.sums import more_than
from stash.garment.make import State
from stash.services.piece_outline import outline_fault
from stash.units.format_length import Measure, show_length
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from stash.cloth.record import Cloth
    from stash.config import System
    from stash.garment.make import Make
    from stash.garment.pattern import Pattern
    from stash.services.whole import Whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing that is wrong."""

    record: str
    """On what: `cloth Olive needlecord (number 3)`."""
    wrong: str
    todo: str
    """What the person can do about it."""
    repaired: bool = False


def findings_of(whole: Whole, system: System) -> tuple[Finding, ...]:
    """Everything that is wrong with the records, cloth by cloth, pattern by pattern."""
    found: list[Finding] = []
    for cloth in whole.cloths.values():
        found += _of_cloth(whole, cloth, system)
    for pattern in whole.patterns.values():
        found += _of_pattern(pattern)
    for make in whole.makes.values():
        found += _of_make(whole, make)
    return tuple(found)


def _of_cloth(whole: Whole, cloth: Cloth, system: System) -> Iterator[Finding]:
    record = f"cloth {cloth.name} (number {cloth.id})"

    def told(length: Length) -> str:
        return show_length(length, system, Measure.TAKEN)

    held = [promise for promise in whole.promises if promise.cloth_id == cloth.id]
    promised = sum((one.length for one in held if not one.cut), ZERO)
    used = sum((one.length for one in held if one.cut), ZERO)
    if cloth.left < ZERO or cloth.width <= ZERO:
        yield Finding(
            record=record,
            wrong="its length or width is below nothing.",
            todo=f"stash cloth edit {cloth.id} --length … --width …",
        )
    if more_than(promised, cloth.left):
        yield Finding(
            record=record,
            wrong=f"{told(promised)} is promised, but only {told(cloth.left)} is left.",
            todo="Release a promise (stash release MAKE), or correct its length.",
        )
    if more_than(cloth.left + used, cloth.bought):
        spent = f" and {told(used)} was cut" if used else ""
        yield Finding(
            record=record,
            wrong=f"{told(cloth.left)} is left{spent}, but only {told(cloth.bought)} was bought.",
            todo=f"Correct one: stash cloth edit {cloth.id} --length … --bought …",
        )
    if cloth.selvedge + cloth.selvedge >= cloth.width:
        yield Finding(
            record=record,
            wrong="the selvedges take up the whole width.",
            todo=f"stash cloth edit {cloth.id} --selvedge …",
        )
    if sum(share.percent for share in cloth.fibres) > 101:
        yield Finding(
            record=record,
            wrong="its fibres add up to more than 100 %.",
            todo=f"stash cloth edit {cloth.id} --fibres …",
        )


def _of_pattern(pattern: Pattern) -> Iterator[Finding]:
    record = f"pattern {pattern.name} (number {pattern.id})"
    sizes = {size.label for size in pattern.sizes}
    named = {*(p.size for p in pattern.pieces), *(c.size for c in pattern.charts)}
    for size in sorted(named - sizes - {""}):
        yield Finding(
            record=record,
            wrong=f"a piece or chart is for size {size}, which the pattern does not have.",
            todo=f"Add the size or correct the piece: stash pattern show {pattern.id}",
        )
    views = {view for piece in pattern.pieces for view in piece.views}
    for view in sorted(views - set(pattern.views)):
        yield Finding(
            record=record,
            wrong=f"a piece is for view {view}, which the pattern does not have.",
            todo=f"Add the view or correct the piece: stash pattern show {pattern.id}",
        )
    for number, piece in enumerate(pattern.pieces, start=1):
        if len(piece.outline) < 3 or piece.copies < 1:
            yield Finding(
                record=record,
                wrong=f"the piece {piece.name} has no shape, or is never cut.",
                todo="Draw or draft it again.",
            )
        elif fault := outline_fault(piece):
            unfold = f", or: stash pattern edit-part {pattern.id} {number} on_fold=no"
            yield Finding(
                record=record,
                wrong=f"the piece {piece.name} {fault}",
                todo=f"Draw or draft it again{unfold if piece.on_fold else '.'}",
            )


def _of_make(whole: Whole, make: Make) -> Iterator[Finding]:
    record = f"make {make.name} (number {make.id})"
    held = [promise for promise in whole.promises if promise.make_id == make.id]
    waiting = [promise for promise in held if not promise.cut]
    if make.state is State.PROMISED and not held:
        yield Finding(
            record=record,
            wrong="it is promised, but holds no cloth.",
            todo=f"stash make edit {make.id} --state thought",
        )
    if waiting and make.state is not State.PROMISED:
        yield Finding(
            record=record,
            wrong=f"it is {make.state.value}, but still holds cloth that is not cut.",
            todo=f"stash cut {make.id}, or: stash release {make.id}",
        )
    for role, times in Counter(promise.role for promise in waiting).items():
        if times > 1:
            yield Finding(
                record=record,
                wrong=f"{times} cloths are promised to its {role.value}.",
                todo=f"stash release {make.id} --role {role.value}, then promise one again.",
            )
    if any(promise.length <= ZERO for promise in held):
        yield Finding(
            record=record,
            wrong="it holds a length of nothing.",
            todo=f"stash release {make.id}",
        )
    yield from _asked_of_make(whole, make, record)


def _asked_of_make(whole: Whole, make: Make, record: str) -> Iterator[Finding]:
    pattern = whole.pattern_of(make)
    sizes = tuple(size.label for size in pattern.sizes)
    for what, word, known in (("size", make.size, sizes), ("view", make.view, pattern.views)):
        if word and word not in known:
            yield Finding(
                record=record,
                wrong=f"its {what} {word} is none of {pattern.name}.",
                todo=f"stash make edit {make.id} --{what} …",
            )
    seen = {make.id}
    tested = whole.makes.get(make.muslin_for or 0)
    while tested is not None and tested.id not in seen:
        seen.add(tested.id)
        tested = whole.makes.get(tested.muslin_for or 0)
    if tested is not None:
        yield Finding(
            record=record,
            wrong="it tests itself, directly or by way of other makes.",
            todo=f"stash make edit {make.id} --muslin-for …",
        )
