"""The command palette: what can be done here and now, from the registry of actions."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from textual.command import DiscoveryHit, Hit, Provider

from stash.tui.actions import KEY_NAMES, actions_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from textual.command import Hits


class ActionsProvider(Provider):
    """Offers the actions of the screen below and those of the whole app."""

    async def discover(self) -> Hits:
        """Everything there is, before a word is typed."""
        for title, text, run in self._commands():
            yield DiscoveryHit(title, run, help=text)

    async def search(self, query: str) -> Hits:
        """What matches the typed letters."""
        matcher = self.matcher(query)
        for title, text, run in self._commands():
            score = max(matcher.match(title), matcher.match(text))
            if score > 0:
                yield Hit(score, matcher.highlight(title), run, help=text)

    def _commands(self) -> Iterator[tuple[str, str, Callable[[], object]]]:
        place = getattr(self.screen, "place", "app")
        for action in (*actions_of(place), *actions_of("app")):
            node = self.app if action.place == "app" else self.screen
            if node.check_action(action.name.split("(")[0], ()) is not True:
                continue
            run = partial(node.run_action, action.name)
            yield f"{action.label}  ({KEY_NAMES.get(action.key, action.key)})", action.text, run
