"""Where lays already worked out are found, and kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from stash.lay.result import Lay


class KnownLays(Protocol):
    """Lays already worked out, by their key; a mapping is one."""

    def get(self, key: str, /) -> Lay | None:
        """The lay kept under `key`, or None."""


class LayBook(KnownLays, Protocol):
    """Where they are kept."""

    def put(self, key: str, lay: Lay) -> None:
        """Keep `lay` under `key`."""
