"""Cutting one role from several cloths, because none of them is enough."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Unpack

from stash.cloth.washing import washed_length
from stash.errors import BadInputError, StoppedError
from stash.geometry.ring import signed_area
from stash.pairing.needs import Needs
from stash.pairing.share import Sharing
from stash.report.records import SharedOut
from stash.services.asked import asked_of
from stash.services.known import refuse_without_pieces
from stash.services.laybook import StashLays
from stash.services.laying import laid_out, need_of
from stash.services.subject import make_or_pattern
from stash.services.whole import read_whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.garment.pattern import Piece, Role
    from stash.lay.result import Lay
    from stash.pairing.share import Pieces, Share
    from stash.report.records import LaidOut
    from stash.services.asked import Asked, How
    from stash.services.progress import Cancelled, Progress
    from stash.services.stash import Stash
    from stash.services.whole import Whole
    from stash.units.length import Length

MOST_CLOTHS = 6


def lay_shared(
    stash: Stash,
    ref: str,
    cloths: Sequence[str],
    role: Role | str = "main",
    *,
    size: str = "",
    view: str = "",
    progress: Progress | None = None,
    cancelled: Cancelled | None = None,
    **how: Unpack[How],
) -> SharedOut:
    """Cut as much of a role as fits from the first cloth, the rest from those after it.

    Args:
        stash: The stash.
        ref: Name or number of a make, or of a pattern.
        cloths: Names or numbers, two or more, in the order they are to be used.
        role: The role.
        size: Of a pattern; a make has its own.
        view: Of a pattern; a make has its own.
        progress: Told how many lays were tried.
        cancelled: Asked between lays.
        how: How each is laid; on what, for how many makes and how long is not looked at.

    Raises:
        BadInputError: A cloth named twice, a role without pieces, or a piece no cloth takes.
        StoppedError: `cancelled` said so.
    """
    make = make_or_pattern(stash, ref, size=size, view=view)
    whole = read_whole(stash)
    how = how | {"width": None, "times": None, "careful": None}
    asked = [asked_of(stash, whole, make, role, how | {"cloth": cloth}) for cloth in cloths]
    _refuse(asked)
    one = asked[0].question
    pieces = one.pattern.pieces_for(make.view, make.size, one.role)
    areas = [_area(piece) for piece in pieces]
    trying = _Trying(stash, whole, asked, pieces, progress, cancelled)
    share = Sharing(areas, trying.rooms, trying.fits).find()
    parts = [
        (_only(one, pieces, part), tuple(pieces[k].name for k in sorted(part)))
        for one, part in zip(asked, share.parts, strict=True)
        if part
    ]
    return SharedOut(
        title=f"{make.name}, {asked[0].role}, on {len(parts)} cloth{'s' * (len(parts) > 1)}",
        parts=tuple(_laid(stash, whole, one, how) for one, _ in parts),
        pieces=tuple(names for _, names in parts),
        fits=share.fits,
        least=share.least,
        moved=_moved(share, areas),
    )


def _refuse(asked: Sequence[Asked]) -> None:
    names = [one.cloth.name for one in asked if one.cloth is not None]
    for name in names:
        if names.count(name) > 1:
            raise BadInputError(f"{name} is named twice.", "Name each cloth once.")
    if not 2 <= len(names) <= MOST_CLOTHS:
        raise BadInputError(
            f"{len(names)} cloths are named to cut one role from.",
            f"Name two to {MOST_CLOTHS} cloths.",
        )
    refuse_without_pieces(asked[0].question, "so there is nothing to share out")


def _area(piece: Piece) -> float:
    """Of all copies, mm2."""
    return piece.copies * abs(signed_area(piece.outline)) * (2 if piece.on_fold else 1)


def _moved(share: Share, areas: Sequence[float]) -> float:
    later = sum(areas[k] for part in share.parts[1:] for k in part)
    return later / sum(areas)


def _only(asked: Asked, pieces: Sequence[Piece], part: Pieces) -> Asked:
    """The same with only these pieces of the pattern."""
    question = asked.question
    kept = tuple(pieces[k] for k in sorted(part))
    return replace(
        asked, question=replace(question, pattern=replace(question.pattern, pieces=kept))
    )


def _laid(stash: Stash, whole: Whole, asked: Asked, how: How) -> LaidOut:
    try:
        return laid_out(stash, whole, asked, how)
    except BadInputError as error:
        assert asked.cloth is not None
        raise BadInputError(f"On {asked.cloth.name}: {error.message}", error.hint) from error


class _Aside:
    """Lays tried on the way: those already kept are used, new ones are not kept."""

    def __init__(self, stash: Stash) -> None:
        self._kept = StashLays(stash)
        self._new: dict[str, Lay] = {}

    def get(self, key: str) -> Lay | None:
        return self._new.get(key) or self._kept.get(key)

    def put(self, key: str, lay: Lay) -> None:
        self._new[key] = lay


class _Trying:
    """Whether pieces fit a cloth, by laying them on it."""

    def __init__(
        self,
        stash: Stash,
        whole: Whole,
        asked: Sequence[Asked],
        pieces: Sequence[Piece],
        progress: Progress | None,
        cancelled: Cancelled | None,
    ) -> None:
        self._asked = asked
        self._pieces = pieces
        self._have = [_free(whole, one) for one in asked]
        self._needs = Needs(_Aside(stash), stash.settings.seed, stash.settings.system)
        self._progress = progress
        self._cancelled = cancelled
        self._laid = 0

    @property
    def rooms(self) -> list[float]:
        """Free area of every cloth, mm2."""
        pairs = zip(self._asked, self._have, strict=True)
        return [asked.question.width.mm * have.mm for asked, have in pairs]

    def fits(self, cloth: int, part: Pieces) -> bool:
        """The free length is enough for a lay of them."""
        asked, have = self._asked[cloth], self._have[cloth]
        if self._cancelled and self._cancelled():
            raise StoppedError("Stopped.", "Nothing was changed.")
        need = need_of(_only(asked, self._pieces, part), self._needs)
        self._laid += 1
        if self._progress:
            self._progress(self._laid, self._laid, "lays tried")
        return need.length is not None and need.length.nm <= have.nm


def _free(whole: Whole, asked: Asked) -> Length:
    """Free length of its cloth once washed."""
    assert asked.cloth is not None
    return washed_length(whole.free_for(asked.cloth, asked.make, asked.role), asked.cloth)
