"""A size that lacks a piece is answered by nobody but its chart: lay, pair, plan, need, fit-in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from stash.errors import BadInputError
from stash.report.pattern_text import pattern_text
from stash.services.cloths import add_cloth
from stash.services.fit_in import fit_in
from stash.services.lay_kinds import lay_kinds
from stash.services.laying import lay_make, lay_pattern
from stash.services.makes import add_make
from stash.services.pairing import become, pair_make
from stash.services.pattern_export import export_pieces
from stash.services.patterns import add_chart_row, add_pattern, add_piece, get_pattern
from stash.services.planning import season_plan
from stash.services.width_needs import width_needs

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

LACKED = "has no front in size 42, only in size 40"


@pytest.fixture
def quay(empty_stash: Stash) -> Stash:
    """A skirt whose front is drawn in size 40 only, and a make of it in size 42."""
    add_pattern(empty_stash, {"name": "Quay", "kind": "flared skirt", "sizes": "40, 42"})
    band = {"name": "band", "length": "80 cm", "width": "8 cm"}
    add_piece(empty_stash, "Quay", "rectangle", band)
    front = {"name": "front", "length": "60 cm", "width": "80 cm", "size": "40"}
    add_piece(empty_stash, "Quay", "rectangle", front)
    cord = {"name": "cord", "structure": "woven", "width": "140 cm", "length": "3 m"}
    add_cloth(empty_stash, cord)
    add_make(empty_stash, {"name": "for Ada", "pattern": "Quay", "size": "42"})
    return empty_stash


def test_nobody_lays_a_garment_without_its_front(quay: Stash) -> None:
    for refused in (
        lambda: lay_pattern(quay, "Quay", width="140 cm", size="42"),
        lambda: lay_make(quay, "for Ada", cloth="cord"),
        lambda: pair_make(quay, "for Ada"),
        lambda: width_needs(quay, "Quay", size="42"),
        lambda: fit_in(quay, "for Ada", "cord"),
        lambda: lay_kinds(quay, "for Ada", cloth="cord"),
    ):
        with pytest.raises(BadInputError, match=LACKED) as error:
            refused()
        assert "view of its own" in error.value.hint
    (pairing,) = become(quay, "cord")
    assert pairing.need.length is None
    assert LACKED in pairing.need.why
    (planned,) = season_plan(quay).roles
    assert planned.pairing is None
    (short,) = season_plan(quay).shortfalls
    assert LACKED in short.why
    assert f"It {LACKED}." in pattern_text(get_pattern(quay, "Quay"), quay.settings.system)
    assert lay_pattern(quay, "Quay", width="140 cm", size="40").lay is not None


def test_the_chart_of_the_size_is_asked_instead(quay: Stash) -> None:
    add_chart_row(quay, "Quay", {"size": "42", "width": "140cm", "amount": "1.6 m"})
    laid = lay_pattern(quay, "Quay", width="140 cm", size="42")
    assert laid.lay is None
    assert laid.need.length is not None
    assert laid.need.length.mm == 1600
    with pytest.raises(BadInputError, match=LACKED):
        fit_in(quay, "for Ada", "cord")


def test_the_piece_of_the_size_is_laid_in_place_of_that_of_every_size(
    quay: Stash, tmp_path: Path
) -> None:
    every = {"name": "Band", "length": "86 cm", "width": "8 cm", "size": "40"}
    add_piece(quay, "Quay", "rectangle", every)
    laid = lay_pattern(quay, "Quay", width="140 cm", size="40")
    assert laid.problem is not None
    assert [shape.name for shape in laid.problem.shapes] == ["front", "Band"]
    written = export_pieces(quay, "Quay", tmp_path / "quay.svg", size="40")
    assert [piece.name for piece in written.pieces] == ["front", "Band"]
    assert len(get_pattern(quay, "Quay").pieces) == 3
