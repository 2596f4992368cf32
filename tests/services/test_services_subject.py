"""What is to be laid is a make or a pattern: near names of either are told."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from stash.errors import NotFoundError
from stash.services.patterns import add_pattern
from stash.services.subject import make_or_pattern

if TYPE_CHECKING:
    from stash.services.stash import Stash


def _told(stash: Stash, ref: str) -> str:
    with pytest.raises(NotFoundError) as caught:
        make_or_pattern(stash, ref)
    return str(caught.value)


def test_a_near_name_of_either_is_told(small: Stash) -> None:
    add_pattern(small, {"name": "market tote", "kind": "bag"})
    told = _told(small, "Market totte")
    assert told == "There is no make or pattern called “Market totte”. Did you mean market tote?"
    assert "rain trousers or easy trousers?" in _told(small, "rain trowsers")
    assert _told(small, "1234").endswith("List the makes or the patterns to see them.")


def test_a_part_of_several_names_is_told_as_that(small: Stash) -> None:
    for name in ("short tote", "long tote"):
        add_pattern(small, {"name": name, "kind": "bag"})
    assert _told(small, "tote").startswith("More than one pattern is called “tote”")


def test_without_anything_kept_or_typed_that_is_told(empty_stash: Stash) -> None:
    assert _told(empty_stash, "tote").endswith("No make or pattern is kept yet.")
    assert _told(empty_stash, " ").startswith("Which make?")
