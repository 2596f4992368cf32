"""Edits of a cloth: what cannot all be true is refused, what a wash changes is told."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from stash.cloth.record import Flaw
from stash.errors import BadInputError, RefusedError
from stash.garment.make import DiaryKind
from stash.services.checking import check_stash
from stash.services.cloths import add_cloth, cloth_texts, edit_cloth, get_cloth
from stash.services.diary import add_entry
from stash.services.exporting import export_sheet
from stash.services.import_choices import Choices
from stash.services.importing import preview, take
from stash.services.promises import cut, promise
from stash.store import cloths as store
from stash.units.length import ZERO, Length

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

COTTON = {
    "name": "W",
    "structure": "woven",
    "width": "150 cm",
    "length": "2 m",
    "fibres": "100% cotton",
}
REMNANT = ((0.0, 0.0), (1000.0, 0.0), (1000.0, 700.0), (500.0, 1400.0), (0.0, 1400.0))


def edited(stash: Stash, ref: str, **texts: str) -> str:
    """What was said of an edit."""
    said: list[str] = []
    edit_cloth(stash, ref, texts, remark=said.append)
    return " ".join(said)


def shaped(stash: Stash, **shape: object) -> None:
    """Olive cord, 1.40 m wide, becomes a remnant of 1 m or gets flaws."""
    with stash.write("a shape") as session:
        olive = store.find_cloth(session, "olive")
        store.update_cloth(session, replace(olive, **shape))  # type: ignore[arg-type]


def test_washing_tells_what_was_measured_before_and_changes_no_length(empty_stash: Stash) -> None:
    add_cloth(empty_stash, {**COTTON, "shrink_length": "5%", "shrink_width": "4%"})
    said = edited(empty_stash, "W", washed="yes")
    assert "2.00 m by 150 cm was measured before the wash; about 1.90 m by 144 cm" in said
    assert 'stash cloth edit "W" --length … --width …' in said
    assert get_cloth(empty_stash, "W").left == Length.from_mm(2000)
    assert edited(empty_stash, "W", washed="yes") == ""


def test_what_was_measured_anew_is_not_asked_for(empty_stash: Stash) -> None:
    add_cloth(empty_stash, {**COTTON, "shrink_length": "5%", "shrink_width": "4%"})
    said = edited(empty_stash, "W", washed="yes", length="1.9 m")
    assert "150 cm was measured before the wash; about 144 cm" in said
    edited(empty_stash, "W", washed="no")
    assert edited(empty_stash, "W", washed="yes", length="1.9 m", width="145 cm") == ""


def test_a_cloth_that_does_not_shrink_needs_no_word(empty_stash: Stash) -> None:
    add_cloth(empty_stash, {**COTTON, "shrink_length": "0%", "shrink_width": "0%"})
    assert edited(empty_stash, "W", washed="yes") == ""


def test_a_line_about_a_wash_tells_how_the_cloth_learns_of_it(small: Stash) -> None:
    said: list[str] = []
    add_entry(small, DiaryKind.WASHED, "Lost 6 cm", cloth_ref="blue", remark=said.append)
    (told,) = said
    assert told.startswith("blue stripe still counts as unwashed.")
    assert told.endswith('stash cloth edit "blue stripe" --washed --length … --width …')
    add_entry(small, DiaryKind.WASHED, "again", cloth_ref="olive", remark=said.append)
    add_entry(small, DiaryKind.NOTE, "soft", cloth_ref="blue", remark=said.append)
    assert len(said) == 1


def test_shorter_by_hand_flaws_and_outline_stay_and_that_is_told(small: Stash) -> None:
    shaped(small, flaws=(Flaw(800, 700, 50),))
    before = get_cloth(small, "olive")
    assert "Its flaws stayed as measured" in edited(small, "olive", length="1.5 m")
    assert get_cloth(small, "olive").flaws == before.flaws
    assert edited(small, "olive", length="1.6 m") == ""
    shaped(small, outline=REMNANT)
    assert "Its flaws and outline stayed" in edited(small, "olive", length="90 cm")


def test_more_left_than_bought_is_refused_when_it_is_added(empty_stash: Stash) -> None:
    with pytest.raises(BadInputError, match=r"2\.00 m of W is left, but only 1\.00 m was bought"):
        add_cloth(empty_stash, {**COTTON, "bought": "1 m"})
    add_cloth(empty_stash, {**COTTON, "bought": "199.95 cm"})  # nobody measures half a millimetre
    assert check_stash(empty_stash).sound


def test_a_longer_length_left_corrects_what_was_bought(small: Stash) -> None:
    promise(small, "rain", None, "olive", "1.3 m")
    cut(small, "rain")
    said = edited(small, "olive", length="1 m")
    assert said == "It counts as bought with 2.30 m now, no longer with 1.90 m."
    assert check_stash(small).sound
    with pytest.raises(BadInputError, match=r"1\.00 m .* is left and 1\.30 m was cut, but only"):
        edit_cloth(small, "olive", {"bought": "2 m"})
    with pytest.raises(BadInputError, match="was bought"):
        edit_cloth(small, "olive", {"length": "3 m", "bought": "2.3 m"})


def test_less_than_is_promised_is_refused(small: Stash) -> None:
    promise(small, "rain", None, "olive", "1.3 m")
    with pytest.raises(RefusedError, match=r"1\.30 m of olive cord is promised .* 1\.00 m cannot"):
        edit_cloth(small, "olive", {"length": "1 m"})
    edit_cloth(small, "olive", {"length": "129.95 cm"})
    assert check_stash(small).sound


@pytest.mark.parametrize(
    ("texts", "told"),
    [
        ({"width": "60 cm"}, "is 140 cm across, so it cannot be 60 cm wide"),
        ({"length": "3 m"}, r"ends at 1\.00 m, so it cannot be 3\.00 m long"),
    ],
)
def test_a_remnant_is_no_other_than_its_outline(
    small: Stash, texts: dict[str, str], told: str
) -> None:
    shaped(small, outline=REMNANT, left=Length.from_mm(1000))
    with pytest.raises(BadInputError, match=told):
        edit_cloth(small, "olive", texts)
    edit_cloth(small, "olive", {"place": "attic", "width": "141 cm"})


def test_a_remnant_shrinks_in_the_wash(small: Stash) -> None:
    shaped(small, outline=REMNANT, left=Length.from_mm(1000), washed=False)
    said = edited(small, "olive", washed="yes", length="96 cm", width="136 cm")
    assert said.startswith("Its outline stayed as measured")


def test_an_outline_larger_than_its_cloth_is_taken_and_told(
    empty_stash: Stash, tmp_path: Path
) -> None:
    path = tmp_path / "shelf.csv"
    path.write_text(
        "Name,Structure,Width,Length,Outline\n"
        'Big,woven,60 cm,1 m,"0 0, 140 0, 140 140, 0 140 cm"\n'
        'Just,woven,60 cm,1 m,"0 0, 1000.5 0, 1000.5 600, 0 600 mm"\n'
    )
    seen = preview(empty_stash, path, Choices())
    assert seen.rows[0].remarks == (
        "the outline reaches 1400 mm, beyond the length of 1000 mm",
        "the outline reaches 1400 mm, beyond the width of 600 mm",
    )
    assert seen.rows[1].remarks == ()
    assert take(empty_stash, seen).taken == 2


def test_a_cloth_used_up_comes_back_from_a_table(empty_stash: Stash, tmp_path: Path) -> None:
    add_cloth(empty_stash, {**COTTON, "length": "0"})
    export_sheet(empty_stash, tmp_path / "z.csv")
    with empty_stash.write("forget") as session:
        store.delete_cloth(session, store.find_cloth(session, "W").id)
    assert take(empty_stash, preview(empty_stash, tmp_path / "z.csv", Choices())).taken == 1
    assert get_cloth(empty_stash, "W").bought == ZERO


def test_flaws_and_an_outline_are_typed_and_shown(empty_stash: Stash) -> None:
    add_cloth(
        empty_stash, {**COTTON, "flaws": "80 cm along, 40cm across, 3 cm: ink; 1 m, 9cm, 1cm"}
    )
    assert get_cloth(empty_stash, "W").flaws == (Flaw(800, 400, 30, "ink"), Flaw(1000, 90, 10))
    edited(empty_stash, "W", outline="0 0, 2 0, 1.9 1.4, 0 1.2 m", flaws="")
    cloth = get_cloth(empty_stash, "W")
    assert (cloth.outline, cloth.flaws) == (((0, 0), (2000, 0), (1900, 1400), (0, 1200)), ())
    assert cloth_texts(empty_stash, cloth)["outline"] == "0 0, 200 0, 190 140, 0 120 cm"
    assert check_stash(empty_stash).sound


@pytest.mark.parametrize(
    ("shape", "told"),
    [
        ({"outline": "0 0, 2.1 0, 2.1 1, 0 1 m"}, "ends at 2.10 m, but W is only 2.00 m long"),
        ({"outline": "0 0, 2 0, 2 1.6, 0 1.6 m"}, "ends at 160 cm, but W is only 150 cm wide"),
        ({"outline": "0 0, 90 0, 90 60 cm"}, "ends at 0.90 m, but 2.00 m of W is left"),
        ({"outline": "0 0, 2 1, 2 0, 0 1 m"}, "W can never be laid: the outline"),
        ({"outline": "0 0, 90 0, 90 60"}, "without a unit"),
        ({"flaws": "2.1 m along, 40 cm across, 3 cm: ink"}, "The ink does not lie on W: 2.00 m"),
        ({"flaws": "40 cm along, 1.6 m across, 3 cm"}, "148 cm wide between the selvedges"),
        ({"flaws": "40 cm along, 60 cm across, 0 cm"}, "The flaw has no size"),
        ({"flaws": "1 m, 9 cm, 3 cm: ink, 60 cm along, 75 cm across, 3 cm: oil"}, "Put ; between"),
        ({"flaws": "1 m, 9 cm, 3 cm: tear, corners 0 0, 9 0, 9 6 cm"}, "Put ; between"),
        ({"flaws": "40 cm across, 1 m along, 3 cm"}, "says how far across it is first"),
        ({"flaws": "40 cm, 3 cm"}, "'40 cm, 3 cm' is not a flaw"),
    ],
)
def test_a_shape_that_does_not_lie_on_the_cloth_is_refused(
    empty_stash: Stash, shape: dict[str, str], told: str
) -> None:
    with pytest.raises(BadInputError, match=re.escape(told)):
        add_cloth(empty_stash, {**COTTON, **shape})
    add_cloth(empty_stash, COTTON)
    with pytest.raises(BadInputError, match=re.escape(told)):
        edit_cloth(empty_stash, "W", shape)
    assert get_cloth(empty_stash, "W").version == 1


def test_a_shape_left_as_shown_keeps_every_digit_of_it(empty_stash: Stash) -> None:
    add_cloth(empty_stash, COTTON)
    flaw = Flaw(801.234, 400.567, 30.25, "ink")
    with empty_stash.write("a shape") as session:
        store.update_cloth(session, replace(store.find_cloth(session, "W"), flaws=(flaw,)))
    shown = cloth_texts(empty_stash, get_cloth(empty_stash, "W"))
    assert shown["flaws"] == "80.1 cm along, 40.1 cm across, 3 cm radius: ink"
    edit_cloth(empty_stash, "W", {**shown, "notes": "seen"})
    assert get_cloth(empty_stash, "W").flaws == (flaw,)


def test_a_shape_typed_with_the_wash_is_not_called_unchanged(empty_stash: Stash) -> None:
    add_cloth(empty_stash, {**COTTON, "flaws": "80cm,40cm,3cm"})
    said = edited(empty_stash, "W", length="1.8 m", flaws="60cm,40cm,3cm")
    assert "stayed as measured" not in said
    assert "Its flaws stayed as measured" in edited(empty_stash, "W", length="1.7 m")


def test_another_selvedge_moves_the_edge_flaws_count_from(empty_stash: Stash) -> None:
    add_cloth(empty_stash, {**COTTON, "flaws": "80cm,40cm,3cm"})
    assert "Its flaws count from the edge of the selvedge" in edited(
        empty_stash, "W", selvedge="10 cm"
    )
    assert edited(empty_stash, "W", selvedge="2 cm", flaws="80cm,48cm,3cm") == ""
