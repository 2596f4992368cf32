"""Every kind of lay of one role beside each other: which is shortest, which cannot be made."""

from __future__ import annotations

from typing import TYPE_CHECKING, Unpack

from stash.errors import BadInputError
from stash.lay.problem import LayKind
from stash.report.records import KindRow, KindTable
from stash.services.asked import asked_of
from stash.services.known import refuse_without_pieces
from stash.services.laybook import StashLays
from stash.services.laying import judge, need_of, way_out
from stash.services.solving import doubtful, prepared
from stash.services.subject import make_or_pattern
from stash.services.whole import read_whole

if TYPE_CHECKING:
    from stash.garment.pattern import Role
    from stash.pairing.judgement import Need
    from stash.services.asked import How
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.units.length import Length


def lay_kinds(
    stash: Stash,
    ref: str,
    role: Role | str = "main",
    *,
    size: str = "",
    view: str = "",
    bare: bool = False,
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
    **how: Unpack[How],
) -> KindTable:
    """Lay a role in every kind there is; each lay is kept.

    Args:
        stash: The stash.
        ref: Name or number of a make, or of a pattern.
        role: The role.
        size: Of a pattern; a make has its own.
        view: Of a pattern; a make has its own.
        bare: `ref` is a pattern, whatever makes there are.
        progress: Told how many kinds are laid out.
        cancelled: Asked between lays.
        how: On what; its kind is not looked at.

    Raises:
        BadInputError: The role has no pieces, there is nothing to lay it on, or no kind of
            lay can be made there.
        StoppedError: `cancelled` said so; lays found until then are kept.
    """
    make = make_or_pattern(stash, ref, size=size, view=view, bare=bare)
    whole = read_whole(stash)
    asked = asked_of(stash, whole, make, role, how | {"weighed": progress})
    refuse_without_pieces(asked.question, "so there is nothing to fold or turn")
    each = {kind: asked.in_kind(kind) for kind in LayKind}
    questions = [one.question for one in each.values()]
    book = StashLays(stash)
    doubtful(stash, questions, book)
    needs = prepared(stash, questions, book=book, progress=progress, cancelled=cancelled)
    found = {kind: need_of(one, needs) for kind, one in each.items()}
    if all(need.length is None for need in found.values()):
        opened = found[LayKind.OPEN]
        raise BadInputError(opened.why, way_out(asked, opened))
    have = (
        judge(stash, whole, asked, need_of(asked, needs)).have if asked.cloth is not None else None
    )
    best = _best(found)
    return KindTable(
        title=asked.title,
        usable_width=asked.question.width,
        nap=asked.question.nap,
        have=have,
        best=best,
        rows=tuple(_row(kind, found, best, have) for kind in LayKind),
    )


def _best(found: dict[LayKind, Need]) -> LayKind:
    """The shortest; the open one only where it is shorter than every other."""
    lengths = {kind: need.length.nm for kind, need in found.items() if need.length is not None}
    return min(lengths, key=lambda kind: (lengths[kind], not _is_doubled(found[kind])))


def _is_doubled(need: Need) -> bool:
    return need.lay is not None and need.lay.folded_to > 0


def _row(kind: LayKind, found: dict[LayKind, Need], best: LayKind, have: Length | None) -> KindRow:
    need, least = found[kind], found[best].length
    if need.length is None or least is None:
        return KindRow(kind=kind, need=None, longer=None, spare=None, why=need.why)
    alone = kind is not LayKind.OPEN and not _is_doubled(need)
    return KindRow(
        kind=kind,
        need=need.length,
        longer=need.length - least,
        spare=have - need.length if have is not None else None,
        why="Nothing is cut twice, so nothing lies doubled: it is an open lay." if alone else "",
    )
