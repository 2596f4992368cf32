"""A small stash: two cloths, one pattern with drafted pieces, one make."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.services.cloths import add_cloth
from stash.services.makes import add_make
from stash.services.patterns import add_pattern, add_piece

if TYPE_CHECKING:
    from stash.services.stash import Stash

CORD = {
    "name": "olive cord",
    "structure": "woven",
    "width": "140 cm",
    "length": "1.9 m",
    "weight": "300 gsm",
    "fibres": "100% cotton",
    "hand": "medium",
    "washed": "yes",
}
NARROW = {
    "name": "blue stripe",
    "structure": "woven",
    "width": "90 cm",
    "length": "1.5 m",
    "weight": "240 gsm",
    "fibres": "100% linen",
    "hand": "medium",
}
LEG = {"hip": "100 cm", "crotch": "28 cm", "length": "104 cm", "ankle": "40 cm"}


def fill(stash: Stash) -> None:
    """Olive cord is enough for the trousers; blue stripe is not."""
    add_cloth(stash, CORD)
    add_cloth(stash, NARROW)
    add_pattern(stash, {"name": "easy trousers", "kind": "elastic trousers", "sizes": "40, 42"})
    for half in ("front", "back"):
        add_piece(stash, "easy trousers", f"trouser {half}", {"name": half, **LEG})
    add_make(stash, {"name": "rain trousers", "pattern": "easy trousers", "size": "42"})
