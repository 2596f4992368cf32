"""Two people changing one record: the later one is told what the other changed, and chooses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from stash.errors import BadInputError, NotFoundError, RefusedError
from stash.services.change_fields import exact
from stash.store.as_it_was import as_it_was
from stash.store.journal import last_about
from stash.store.kept import StaleError
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sqlalchemy.orm import Session

    from stash.services.fields import Context, Field

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """One field that they or you changed, as texts; empty for nothing."""

    label: str
    before: str
    theirs: str
    yours: str


class ChangedMeanwhileError(RefusedError):
    """Someone changed the record since it was read; nothing of yours is kept yet."""

    def __init__(self, message: str, hint: str, *, clashes: tuple[Clash, ...], now: Any) -> None:
        super().__init__(message, hint)
        self.clashes = clashes
        self.now = now
        """The record as they left it: what yours may be put on top of."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What keeping an edit needs to know of a kind of record."""

    noun: str
    fields: Sequence[Field]
    get: Callable[[Session, int], Any]
    update: Callable[[Session, Any], Any]


def as_seen(session: Session, kind: Kind, now: T, version: int | None) -> T:
    """The record as it was when it had this version; None: as it is.

    Raises:
        BadInputError: It never had that version, or nobody noted it.
    """
    record: Any = now
    if version is None or version == record.version:
        return now
    seen = as_it_was(session, kind.noun, now, version, kind.get)
    if seen is None:
        raise BadInputError(
            f"{record.name} has no version {version} that is known; it has {record.version} now.",
            "Leave out --seen, or take the version that show --json prints.",
        )
    return seen


def keep_edit(session: Session, kind: Kind, old: T, new: T, context: Context) -> T:
    """Keep the edit of a record that was read as `old`.

    Raises:
        ChangedMeanwhileError: Someone else changed it; with their fields and yours.
        RefusedError: Someone else removed it.
    """
    record: Any = old
    try:
        kept: T = kind.update(session, new)
        return kept
    except NotFoundError as error:
        by, entry = _by(session, kind.noun, record.id)
        if not entry:
            raise
        raise RefusedError(
            f"{record.name} was removed meanwhile {by}.", f"To bring it back: stash undo {entry}."
        ) from error
    except StaleError as error:
        now = kind.get(session, record.id)
        clashes = _clashes(kind.fields, (old, now, new), context)
        by, _ = _by(session, kind.noun, record.id)
        raise ChangedMeanwhileError(
            "\n".join([f"{record.name} was changed meanwhile {by}.", *map(_line, clashes)]),
            "Nothing of yours is kept. To put yours on top of theirs, type it again without --seen"
            f"; to look first: stash history {record.id} --changes.",
            clashes=clashes,
            now=now,
        ) from error


def _by(session: Session, noun: str, record_id: int) -> tuple[str, int]:
    """Who changed it last, in words, and the number of that entry; 0 if nobody knows."""
    last = last_about(session, noun, record_id)
    if last is None:
        return "by someone", 0
    return f"by {last.who}, {last.at.astimezone():%Y-%m-%d %H:%M} ({last.what})", last.id


def _clashes(
    fields: Sequence[Field], records: tuple[Any, Any, Any], context: Context
) -> tuple[Clash, ...]:
    found = []
    for field in fields:
        values = [getattr(record, field.attribute) for record in records]
        if values[0] == values[1] == values[2]:
            continue
        texts = [field.show(value, context) for value in values]
        if len(set(texts)) == 1 and all(isinstance(value, Length) for value in values):
            texts = [exact(field).show(value, context) for value in values]
        found.append(Clash(label=field.label, before=texts[0], theirs=texts[1], yours=texts[2]))
    return tuple(found)


def _line(clash: Clash) -> str:
    def said(text: str) -> str:
        return text or "nothing"

    if clash.yours == clash.before:
        return f"{clash.label}: theirs {said(clash.theirs)}, before {said(clash.before)}."
    if clash.theirs == clash.before:
        return f"{clash.label}: yours {said(clash.yours)}, before {said(clash.before)}."
    return (
        f"{clash.label}: theirs {said(clash.theirs)}, yours {said(clash.yours)}, "
        f"before {said(clash.before)}."
    )
