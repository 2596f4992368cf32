"""A view that is still named is not taken away, and what names it is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from stash.errors import BadInputError, RefusedError
from stash.services.checking import check_stash
from stash.services.makes import add_make, edit_make
from stash.services.pattern_parts import parts_of, remove_parts
from stash.services.patterns import (
    add_chart_row,
    add_notion,
    add_pattern,
    add_piece,
    edit_pattern,
    get_pattern,
)

if TYPE_CHECKING:
    from stash.services.stash import Stash


def test_a_view_goes_only_when_nothing_names_it(empty_stash: Stash) -> None:
    stash = empty_stash
    add_pattern(stash, {"name": "Dune", "kind": "dress", "sizes": "40", "views": "short, long"})
    flounce = {"name": "flounce", "length": "60 cm", "width": "8 cm", "views": "long"}
    add_piece(stash, "Dune", "rectangle", flounce)
    row = {"view": "long", "size": "40", "width": "140 cm", "amount": "3 m"}
    add_chart_row(stash, "Dune", row)
    add_notion(stash, "Dune", {"name": "zip", "view": "long"})
    add_make(stash, {"name": "party", "pattern": "Dune", "size": "40", "view": "long"})

    with pytest.raises(BadInputError) as error:
        edit_pattern(stash, "Dune", {"views": "short, maxi"})
    told = "View long of Dune is still that of piece flounce, 1 chart row, notion zip."
    assert error.value.message == told
    assert '--views "short, long, maxi"' in error.value.hint
    assert get_pattern(stash, "Dune").views == ("short", "long")
    edit_pattern(stash, "Dune", {"views": "short, long, maxi"})  # adding and ordering is free
    edit_pattern(stash, "Dune", {"views": "long, short"})

    titles = [part.kind.value for part in parts_of(stash, get_pattern(stash, "Dune"))]
    gone = [str(n) for n, kind in enumerate(titles, 1) if kind in ("piece", "chart row", "notion")]
    remove_parts(stash, "Dune", ",".join(gone))
    with pytest.raises(RefusedError, match="sewn in view long: party") as refused:
        edit_pattern(stash, "Dune", {"views": ""})
    assert "rename" not in refused.value.hint
    edit_make(stash, "party", {"view": "short"})
    assert edit_pattern(stash, "Dune", {"views": "short"}).views == ("short",)
    assert check_stash(stash).sound
