"""Makes, the people they are for, the cloth promised to them, and the diary."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date

    from stash.garment.pattern import Role
    from stash.units.length import Length


class State(StrEnum):
    """Where a make stands."""

    THOUGHT = "thought"
    PROMISED = "promised"
    CUT = "cut"
    SEWING = "sewing"
    WORN = "worn"
    LET_GO = "let go"

    @property
    def wants_cloth(self) -> bool:
        """Nothing is cut yet, so the season plan may still choose."""
        return self in (State.THOUGHT, State.PROMISED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Someone sewn for. Measures by ISO 8559-1 names where one is known."""

    id: int = 0
    name: str
    child_age: int | None = None
    """Years, for children: their garments carry extra cautions."""
    measures: tuple[tuple[str, Length], ...] = ()
    measured_on: date | None = None
    notes: str = ""
    version: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Make:
    """A garment someone means to sew or has sewn. `id` is 0 until it is kept."""

    id: int = 0
    name: str
    pattern_id: int
    view: str = ""
    size: str = ""
    person_id: int | None = None
    muslin: bool = False
    """Meant as a wearable muslin: a test of the fit that is to be kept."""
    muslin_for: int | None = None
    """The make this one tests; it is cut first."""
    state: State = State.THOUGHT
    priority: int = 3
    """1 (some day) to 5 (next)."""
    due: date | None = None
    notes: str = ""
    version: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """Some of a cloth is held for a role of a make, or was cut for it."""

    id: int = 0
    make_id: int
    role: Role
    cloth_id: int
    length: Length
    """Of the cloth as it lies on the shelf: before washing if it is not washed."""
    pinned: bool = True
    """Chosen by the person: the season plan leaves it alone."""
    cut: bool = False
    version: int = 1


class DiaryKind(StrEnum):
    """What happened."""

    BOUGHT = "bought"
    WASHED = "washed"
    CUT = "cut"
    STARTED = "started"
    FINISHED = "finished"
    FITTING = "fitting"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryEntry:
    """One dated line of the diary."""

    id: int = 0
    day: date
    kind: DiaryKind
    text: str
    cloth_id: int | None = None
    make_id: int | None = None
