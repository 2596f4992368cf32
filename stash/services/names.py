"""Finding records by what a person types, and naming them again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.services.fields import Context
from stash.store import cloths, makes, patterns, people
from stash.store.record_names import kept_names

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from stash.cloth.record import Cloth
    from stash.garment.make import Make, Person
    from stash.services.stash import Stash


class SessionNames:
    """Names looked up in one session, each noun's at most once."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._names: dict[str, dict[int, str]] = {}

    def id_of(self, noun: str, ref: str) -> int:
        """The id of the record meant by `ref`; NotFoundError if there is none or several."""
        session = self._session
        match noun:
            case "cloth":
                return cloths.find_cloth(session, ref).id
            case "pattern":
                return patterns.find_pattern(session, ref).id
            case "person":
                return people.find_person(session, ref).id
            case _:
                return makes.find_make(session, ref).id

    def name_of(self, noun: str, record_id: int) -> str:
        """Its name, or an empty text if it is gone."""
        if noun not in self._names:
            self._names[noun] = self._load(noun)
        return self._names[noun].get(record_id, "")

    def _load(self, noun: str) -> dict[int, str]:
        session = self._session
        match noun:
            case "cloth":
                return {c.id: c.name for c in cloths.all_cloths(session)}
            case "pattern":
                return {p.id: p.name for p in patterns.all_patterns(session)}
            case "person":
                return {p.id: p.name for p in people.all_people(session)}
            case _:
                return {m.id: m.name for m in makes.all_makes(session)}


def namesakes(stash: Stash, noun: str, kept: Cloth | Make | Person) -> str:
    """A sentence on others of the very name of a record just kept; empty where there are none.

    Two may bear one name: two lengths of one cloth, the same make once more.
    """
    with stash.read() as session:
        names = kept_names(session)
    others = [
        str(number)
        for (what, number), name in sorted(names.items())
        if what == noun and number != kept.id and name.casefold() == kept.name.casefold()
    ]
    if not others:
        return ""
    number = f"number {others[0]}" if len(others) == 1 else f"numbers {', '.join(others)}"
    return f"There is another {noun} of that name, {number}."


def context(stash: Stash, session: Session) -> Context:
    """What fields need to read and show values of this stash."""
    return Context(stash.settings, SessionNames(session))
