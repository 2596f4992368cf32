"""Measures of bodies and garments by name."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stash.units.length import Length


def by_name(measures: tuple[tuple[str, Length], ...]) -> dict[str, Length]:
    """The measures under their names in plain words: `Upper_arm` stands under `upper arm`."""
    return {name.lower().replace("_", " "): size for name, size in measures}
