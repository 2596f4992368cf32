"""What a cloth could become, as text and as plain data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.report.columns import sides, wrapped
from stash.report.plain import pairing_json
from stash.report.plan_text import amounts
from stash.report.suit_text import doubts, suit_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from stash.config import System
    from stash.report.records import Becoming, Could


def title_of(could: Could) -> str:
    """`Deckwash shirt B, lining, size M for Ottoline`."""
    name = f"{could.pattern.name} {could.view}".strip()
    size = f"size {could.size}" if could.size else ""
    person = f"for {could.person}" if could.person else ""
    words = (name, could.pairing.role.value, f"{size} {person}".strip())
    return ", ".join(word for word in words if word)


def become_text(found: Iterable[Could], system: System, width: int = 80) -> Iterator[str]:
    """A few lines for each."""
    for could in found:
        pairing = could.pairing
        yield sides(title_of(could), f"{pairing.verdict}, {suit_words(pairing)}", width)
        yield wrapped(amounts(pairing, system), width, 4)
        yield from doubts(pairing, width)
        if could.waiting:
            yield wrapped(f"In the queue from this pattern: {', '.join(could.waiting)}.", width, 4)
        for caution in pairing.cautions:
            yield wrapped(f"Caution: {caution}", width, 4)


def become_json(found: Becoming) -> dict[str, Any]:
    """`stash become --json`."""
    shelf = {found.cloth.id: found.cloth}
    return {
        "could": [
            {
                "pattern": could.pattern.name,
                "view": could.view,
                "size": could.size,
                "person": could.person or None,
                "waiting": list(could.waiting),
                **pairing_json(could.pairing, shelf),
            }
            for could in found.could
        ]
    }
