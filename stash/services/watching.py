"""Noticing what other programs change in a stash that stays open."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.store.journal import newest_titles

if TYPE_CHECKING:
    from stash.services.stash import Stash
    from stash.store.journal import Title


@dataclass(frozen=True, slots=True)
class News:
    """What others changed since the last look, oldest first; never empty."""

    titles: tuple[Title, ...]

    @property
    def sentence(self) -> str:
        """Such as `Changed elsewhere by jo: edit cloth olive cord.`"""
        last = self.titles[-1]
        more = len(self.titles) - 1
        others = f" and {more} more" if more else ""
        return f"Changed elsewhere by {last.who}: {last.what}{others}."


class Watcher:
    """Looks at the journal now and then; what this program wrote itself is no news."""

    def __init__(self, stash: Stash) -> None:
        self._stash = stash
        self._known: set[int] | None = None

    def news(self) -> News | None:
        """What others changed since the last call; nothing on the first one."""
        with self._stash.read() as session:
            titles = newest_titles(session)
        ids = {title.id for title in titles}
        if self._known is None:
            self._known = ids
            return None
        strange = ids - self._known - self._stash.own_entries
        self._known |= ids
        found = tuple(title for title in titles if title.id in strange)
        return News(found) if found else None
