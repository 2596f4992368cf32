"""Cutting a cloth with flaws or an outline: what is drawn on the rest lies where the cloth is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from stash.cloth.record import Cloth, Flaw, Structure
from stash.errors import RefusedError
from stash.services.cloths import get_cloth
from stash.services.laying import lay_make
from stash.services.makes import add_make
from stash.services.patterns import add_pattern, add_piece
from stash.services.promises import cut, promise, read_measured
from stash.services.undoing import undo
from stash.store import cloths as store
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.stash import Stash

INK = Flaw(800, 700, 50, "ink")
REMNANT = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 700.0), (500.0, 1400.0), (0.0, 1400.0))


def _shelf(stash: Stash, **shape: object) -> Cloth:
    """A cloth of 1.40 m by 2 m, washed unless said, and three makes of one wide piece."""
    length = Length.from_mm(1000 if "outline" in shape else 2000)
    values: dict[str, object] = {"washed": True, "left": length, "bought": length, **shape}
    add_pattern(stash, {"name": "Wide", "kind": "bag"})
    piece = {"name": "w", "length": "45cm", "width": "130cm"}
    add_piece(stash, "Wide", "rectangle", piece)
    for name in ("M1", "M2", "M3"):
        add_make(stash, {"name": name, "pattern": "Wide"})
    with stash.write("a cloth") as session:
        return store.insert_cloth(
            session,
            Cloth(
                name="linen",
                structure=Structure.WOVEN,
                width=Length.from_mm(1400),
                **values,  # type: ignore[arg-type]
            ),
        )


def test_the_next_lay_keeps_clear_of_a_flaw_where_it_is_after_the_cut(empty_stash: Stash) -> None:
    _shelf(empty_stash, flaws=(INK,))
    promise(empty_stash, "M1", None, "linen")
    said: list[str] = []
    cut(empty_stash, "M1", remark=said.append)
    assert said == ["The ink of linen is 35 cm from the new end now."]
    assert get_cloth(empty_stash, "linen").flaws == (Flaw(350, 700, 50, "ink"),)
    laid = lay_make(empty_stash, "M2", cloth="linen")
    assert laid.lay is not None
    # Beside the spot there is no room for 130 cm; the piece begins about where it ends, at 40 cm.
    assert 800 <= laid.lay.need <= 852


def test_one_undo_puts_flaws_and_outline_back(empty_stash: Stash) -> None:
    before = _shelf(empty_stash, flaws=(INK,), outline=REMNANT)
    promise(empty_stash, "M1", None, "linen")
    held = get_cloth(empty_stash, "linen")
    assert (held.flaws, held.outline) == (before.flaws, before.outline)
    cut(empty_stash, "M1")
    assert get_cloth(empty_stash, "linen").outline != REMNANT
    undo(empty_stash)
    after = get_cloth(empty_stash, "linen")
    assert (after.flaws, after.outline, after.left) == (before.flaws, REMNANT, before.left)


def test_on_the_rest_of_a_remnant_nothing_is_laid_where_it_has_no_cloth(empty_stash: Stash) -> None:
    _shelf(empty_stash, outline=REMNANT)
    promise(empty_stash, "M1", None, "linen")
    said: list[str] = []
    cut(empty_stash, "M1", remark=said.append)
    assert said == ["The outline of linen ends 0.55 m from the new end now."]
    with pytest.raises(RefusedError, match="no room left on this remnant"):
        promise(empty_stash, "M2", None, "linen")


def test_what_was_measured_counts_and_lengths_are_those_of_the_shelf(empty_stash: Stash) -> None:
    _shelf(empty_stash, flaws=(INK,), washed=False, shrink_length=10.0, shrink_width=0.0)
    promise(empty_stash, "M1", None, "linen")  # 45 cm washed are 50 cm on the shelf
    cut(empty_stash, "M1")
    assert get_cloth(empty_stash, "linen").flaws[0].x == 300
    promise(empty_stash, "M2", None, "linen", "20 cm")
    cut(empty_stash, "M2", read_measured(left="1.25 m"))
    assert get_cloth(empty_stash, "linen").flaws[0].x == 50


def test_a_cut_beyond_the_outline_leaves_nothing(empty_stash: Stash) -> None:
    before = _shelf(empty_stash, outline=REMNANT, left=Length.from_mm(1200))
    promise(empty_stash, "M1", None, "linen", "1.1 m")
    with pytest.raises(RefusedError, match=r"ends at 1\.00 m, so 1\.10 m cut from it"):
        cut(empty_stash, "M1")
    assert get_cloth(empty_stash, "linen").left == before.left
    cut(empty_stash, "M1", read_measured(left="0m"))
    assert not get_cloth(empty_stash, "linen").left
    assert get_cloth(empty_stash, "linen").outline == ()
