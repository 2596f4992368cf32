"""Selvedges kept, several makes at once, several cloths for one role: laid out in the head."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from stash.cloth.record import Flaw
from stash.errors import BadInputError, StoppedError
from stash.pairing.judgement import Verdict
from stash.report.lay_words import bound_words
from stash.services.cloths import add_cloth
from stash.services.laying import lay_any
from stash.services.makes import add_make
from stash.services.patterns import add_pattern, add_piece
from stash.services.preferences import change_settings
from stash.services.sharing import lay_shared
from stash.store.cloths import update_cloth

if TYPE_CHECKING:
    from stash.services.stash import Stash


def cloth(stash: Stash, name: str, width: str, length: str, **more: Any) -> None:
    """A washed cloth; `more` is what only a folder or a drawing can say of it."""
    texts = {"name": name, "structure": "woven", "washed": "yes", "width": width}
    new = add_cloth(stash, texts | {"length": length})
    with stash.write("draw the cloth") as session:
        update_cloth(session, replace(new, **more))


@pytest.fixture
def skirt(empty_stash: Stash) -> Stash:
    """Two rectangles of 60 x 62 cm and two pockets of 20 x 20 cm, one make."""
    add_pattern(empty_stash, {"name": "quay skirt", "kind": "straight skirt"})
    half = {"name": "half", "width": "60 cm", "length": "62 cm", "copies": "2"}
    add_piece(empty_stash, "quay skirt", "rectangle", half)
    add_make(empty_stash, {"name": "market skirt", "pattern": "quay skirt"})
    return empty_stash


@pytest.fixture
def pocketed(skirt: Stash) -> Stash:
    pocket = {"name": "pocket", "width": "20 cm", "length": "20 cm", "copies": "2"}
    add_piece(skirt, "quay skirt", "rectangle", pocket)
    return skirt


def test_kept_selvedges_make_room(skirt: Stash) -> None:
    # Less 1 cm a side 120 cm hold the two halves of 60 cm end to end only, 2 x 62 cm.
    cloth(skirt, "linen", "120 cm", "2 m")
    cut = lay_any(skirt, "market", cloth="linen")
    kept = lay_any(skirt, "market", cloth="linen", keep_selvedges=True)
    assert (cut.usable_width.mm, kept.usable_width.mm) == (1180, 1200)
    assert cut.need.length is not None
    assert kept.need.length is not None
    assert cut.need.length.mm == pytest.approx(1240, abs=0.01)
    assert kept.need.length.mm == pytest.approx(620, abs=0.01)
    assert (cut.keeps_selvedges, kept.keeps_selvedges) == (False, True)
    assert kept.lay is not None
    assert kept.lay.checked
    bare = lay_any(skirt, "quay", width="120 cm", keep_selvedges=True)
    assert bare.need.length == kept.need.length


def test_a_remnant_has_no_selvedges_to_keep(skirt: Stash) -> None:
    cloth(skirt, "scrap", "120 cm", "2 m", outline=((0, 0), (900, 0), (900, 700), (0, 800)))
    with pytest.raises(BadInputError, match="remnant"):
        lay_any(skirt, "market", cloth="scrap", keep_selvedges=True)


def test_layers_win_where_one_make_fills_the_width(skirt: Stash) -> None:
    # Both halves side by side, 62 cm; for three makes no lay is shorter than 3 x 62 cm,
    # because no more than two halves lie side by side on 138 cm.
    cloth(skirt, "linen", "140 cm", "3 m")
    laid = lay_any(skirt, "market", cloth="linen", times=3)
    several = laid.several
    assert several is not None
    assert several.layers_win
    assert several.together is not None
    assert several.layers is not None
    assert several.together.mm == pytest.approx(1860, abs=0.01)
    assert several.layers.mm == pytest.approx(1860, abs=0.01)
    assert laid.need.length == several.layers
    assert laid.lay is not None
    assert laid.lay.checked
    assert laid.lay.need == pytest.approx(620, abs=0.01)
    assert laid.title == "market skirt x 3, main, on linen, one of 3 layers"
    assert laid.least_mm == pytest.approx(3 * 620, abs=0.01)  # the bound of each, thrice
    assert "in each of 3 layers" in bound_words(laid, laid.lay)


def test_together_wins_where_one_make_leaves_half_the_width(skirt: Stash) -> None:
    # Two rows for three halves, but three rows for six of them: 186 cm against 248 cm.
    third = {"name": "third", "width": "60 cm", "length": "62 cm", "copies": "1"}
    add_piece(skirt, "quay", "rectangle", third)
    cloth(skirt, "linen", "140 cm", "3 m")
    laid = lay_any(skirt, "quay", cloth="linen", times=2)
    assert laid.several is not None
    assert not laid.several.layers_win
    assert laid.need.length is not None
    assert laid.several.layers is not None
    assert laid.need.length.mm == pytest.approx(1860, abs=0.01)
    assert laid.several.layers.mm == pytest.approx(2480, abs=0.01)
    assert laid.lay is not None
    assert len([p for p in laid.lay.placements if not p.waste]) == 6


def test_a_flaw_bars_layers(skirt: Stash) -> None:
    cloth(skirt, "linen", "140 cm", "5 m", flaws=(Flaw(100, 1370, 5),))
    laid = lay_any(skirt, "market", cloth="linen", times=2)
    assert laid.several is not None
    assert laid.several.layers is None
    assert "flaw" in laid.several.why_no_layers


@pytest.mark.parametrize("times", [0, 1, 13])
def test_as_many_makes_as_can_be_cut(skirt: Stash, times: int) -> None:
    with pytest.raises(BadInputError, match="at once"):
        lay_any(skirt, "market", width="140 cm", times=times)


def test_small_pieces_go_to_the_next_cloth(pocketed: Stash) -> None:
    # 138 x 70 cm hold the halves, 120 x 62; what is left is 18 cm wide or 8 cm long.
    cloth(pocketed, "linen", "140 cm", "70 cm")
    cloth(pocketed, "scrap", "60 cm", "30 cm")
    shared = lay_shared(pocketed, "market", ("linen", "scrap"))
    assert shared.pieces == (("half",), ("pocket",))
    assert shared.fits
    assert shared.least
    assert shared.moved == pytest.approx(2 * 20 * 20 / (2 * 60 * 62 + 2 * 20 * 20))
    assert [part.cloth.name for part in shared.parts if part.cloth] == ["linen", "scrap"]
    needs = [part.need.length.mm for part in shared.parts if part.need.length]
    assert needs == pytest.approx([620, 200], abs=0.01)
    assert all(part.lay is not None and part.lay.checked for part in shared.parts)
    assert all(part.verdict is not None and part.verdict.can_be_cut for part in shared.parts)


def test_the_first_cloth_is_enough(pocketed: Stash) -> None:
    cloth(pocketed, "linen", "140 cm", "1 m")
    cloth(pocketed, "scrap", "60 cm", "30 cm")
    shared = lay_shared(pocketed, "market", ("linen", "scrap"))
    assert shared.pieces == (("half", "pocket"),)
    assert shared.moved == 0


def test_what_is_missing_is_told_on_its_cloth(pocketed: Stash) -> None:
    # The halves want 62 cm and no cloth has them: the last one is asked, 62 - 50 short.
    cloth(pocketed, "linen", "140 cm", "30 cm")
    cloth(pocketed, "scrap", "140 cm", "50 cm")
    shared = lay_shared(pocketed, "market", ("linen", "scrap"))
    assert not shared.fits
    assert shared.pieces[-1] == ("half",)
    last = shared.parts[-1]
    assert last.verdict is Verdict.SHORT
    assert last.spare is not None
    assert last.spare.mm == pytest.approx(-120, abs=0.01)


def test_cloths_are_named_once_and_fit_for_it(pocketed: Stash) -> None:
    cloth(pocketed, "linen", "140 cm", "70 cm")
    cloth(pocketed, "ribbon", "12 cm", "9 m")
    with pytest.raises(BadInputError, match="named twice"):
        lay_shared(pocketed, "market", ("linen", "linen"))
    with pytest.raises(BadInputError, match="On ribbon: pocket is"):
        lay_shared(pocketed, "market", ("linen", "ribbon"))
    with pytest.raises(StoppedError):
        lay_shared(pocketed, "market", ("linen", "ribbon"), cancelled=lambda: True)


def test_a_piece_too_wide_is_told_in_the_units_of_the_person(skirt: Stash) -> None:
    # 60 cm are 23.62 in; a cloth of 58 cm less 1 cm a side has 22.05 in.
    change_settings(skirt, {"units": "imperial"})
    with pytest.raises(BadInputError, match="half is 23 5/8 in across and the cloth only 22 in"):
        lay_any(skirt, "market", width="58 cm")
