from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from small_stash import LEG

from stash.errors import BadInputError, NotFoundError, RefusedError
from stash.garment.defaults import default_asks
from stash.garment.make import DiaryKind, State
from stash.garment.pattern import Kind, Role
from stash.services import cloths, diary, makes, patterns, people
from stash.services.checking import check_stash
from stash.services.pattern_parts import PartKind, edit_part, parts_of, remove_parts
from stash.services.promises import cut, promise, read_measured, release
from stash.services.remarks import CUT_FORGOTTEN
from stash.services.undoing import undo
from stash.store import cloths as store
from stash.units.length import Length

if TYPE_CHECKING:
    from stash.services.stash import Stash

BAND = {"name": "band", "length": "1 m", "width": "8 cm"}


def test_a_form_opened_before_another_change_is_refused(small: Stash) -> None:
    opened = cloths.get_cloth(small, "olive")
    cloths.edit_cloth(small, "olive", {"place": "attic"})
    with pytest.raises(RefusedError, match="changed meanwhile"):
        cloths.edit_cloth(small, "olive", {"place": "cellar"}, base=opened)
    assert cloths.get_cloth(small, "olive").place == "attic"


def test_shelf_filters_and_counts_what_is_free(small: Stash) -> None:
    assert [row.cloth.name for row in cloths.shelf(small, "width>=1m")] == ["olive cord"]
    promise(small, "rain", None, "olive")
    (row,) = cloths.shelf(small, "cord")
    assert row.promised + row.free == row.cloth.left
    assert (row.state, row.promised.nm > 0) == ("promised", True)


def test_a_make_has_a_size_of_its_pattern(small: Stash) -> None:
    with pytest.raises(BadInputError, match="several sizes"):
        makes.add_make(small, {"name": "b", "pattern": "easy"})
    with pytest.raises(BadInputError, match="no size '50'"):
        makes.add_make(small, {"name": "b", "pattern": "easy", "size": "50"})
    with pytest.raises(NotFoundError, match="no pattern"):
        makes.add_make(small, {"name": "b", "pattern": "ball gown"})
    assert len(makes.queue(small)) == 1


def test_queue_names_what_a_make_refers_to(small: Stash) -> None:
    people.add_person(small, {"name": "Ida", "measures": "waist = 78 cm; hip = 40 in"})
    test = {"name": "trial", "pattern": "easy", "size": "40", "person": "ida"}
    makes.add_make(small, {**test, "muslin": "yes", "muslin_for": "rain"})
    (row,) = makes.queue(small, "trial")
    assert (row.pattern, row.person, row.tests) == ("easy trousers", "Ida", "rain trousers")
    assert row.roles == (Role.MAIN,)


def test_what_is_used_cannot_be_removed(small: Stash) -> None:
    promise(small, "rain", None, "olive")
    for removing in (
        lambda: cloths.remove_cloth(small, "olive"),
        lambda: makes.remove_make(small, "rain"),
        lambda: patterns.remove_pattern(small, "easy"),
    ):
        with pytest.raises(RefusedError):
            removing()
    cloths.remove_cloth(small, "blue")
    assert len(cloths.shelf(small)) == 1


@pytest.mark.parametrize("noun", ["cloth", "make"])
def test_after_the_cut_cloth_and_make_may_be_removed(small: Stash, noun: str) -> None:
    promise(small, "rain", None, "olive", "1.3 m")
    cut(small, "rain")
    (before,) = makes.make_row(small, "rain").held
    said: list[str] = []
    if noun == "cloth":
        cloths.remove_cloth(small, "olive", remark=said.append)
        assert makes.make_row(small, "rain").held == ()
        assert makes.get_make(small, "rain").state is State.CUT
    else:
        makes.remove_make(small, "rain", remark=said.append)
        assert cloths.get_cloth(small, "olive").left == Length.from_mm(600)
    assert said == [CUT_FORGOTTEN]
    assert "1.30 m of olive cord cut for rain trousers" in diary.entries(small)[0].text
    assert check_stash(small).sound
    undo(small)
    (after,) = makes.make_row(small, "rain").held
    version = after.promise.version
    assert after == replace(before, promise=replace(before.promise, version=version))


def test_pieces_come_and_go(small: Stash) -> None:
    with pytest.raises(BadInputError, match="already has a piece"):
        patterns.add_piece(small, "easy", "trouser front", {"name": "front", **LEG})
    with pytest.raises(BadInputError, match="no size '99'"):
        patterns.add_piece(small, "easy", "band", {**BAND, "size": "99"})
    with pytest.raises(BadInputError, match="Crotch is missing"):
        patterns.add_piece(small, "easy", "trouser back", {"name": "x", **LEG, "crotch": ""})
    left, _ = remove_parts(small, "easy", "1")
    assert [piece.name for piece in left.pieces] == ["back"]


def test_tables_of_a_pattern(small: Stash) -> None:
    row = {"size": "42", "width": '45"', "amount": "2 5/8 yd"}
    patterns.add_chart_row(small, "easy", row)
    patterns.add_chart_row(small, "easy", {**row, "amount": "2 3/4 yd"})
    (kept,) = patterns.get_pattern(small, "easy").charts
    assert kept.amount == Length.from_inches(99)
    asks = patterns.set_asks(small, "easy", {"structures": "woven, knit", "weight_low": "4 oz"})
    assert [a.weight_low for a in asks.asks] == [pytest.approx(135.62, abs=0.01)]
    patterns.add_notion(small, "easy", {"name": "zip", "length": "20 cm"})
    assert patterns.get_pattern(small, "easy").notions[0].length == Length.from_mm(200)


def test_a_pattern_kept_twice_is_noticed(small: Stash) -> None:
    known = {"name": "EASY trousers!", "kind": "elastic trousers"}
    with pytest.raises(RefusedError, match=r"called easy trousers already, number \d"):
        patterns.add_pattern(small, known)
    near = patterns.add_pattern(small, {**known, "name": "Trousers, easy", "sizes": "S, M"})
    assert "easy trousers (number" in patterns.near_ones(small, near)
    with pytest.raises(RefusedError, match="already"):
        patterns.edit_pattern(small, "Trousers, easy", {"name": "easy trousers"})
    other = patterns.edit_pattern(small, "Trousers, easy", {"name": "Pier trousers 2"})
    assert patterns.near_ones(small, other) == ""


def test_what_the_library_knows_of_a_pattern(small: Stash) -> None:
    said = {"form": "bo", "traced": "40", "picture": "~/p.jpg", "kept_in": "shelf 2"}
    kept = patterns.edit_pattern(small, "easy", said)
    assert (kept.form, kept.traced, kept.picture) == ("book", ("40",), "~/p.jpg")
    with pytest.raises(BadInputError, match="no size '99'"):
        patterns.edit_pattern(small, "easy", {"traced": "99"})
    with pytest.raises(BadInputError, match="paper, file, book"):
        patterns.edit_pattern(small, "easy", {"form": "tape"})


def test_asks_begin_with_what_is_usual_and_change_by_what_is_typed(small: Stash) -> None:
    usual = default_asks(Kind.TROUSERS_ELASTIC, Role.MAIN)
    (asks,) = patterns.set_asks(small, "easy", {"fibres": "linen, cotton", "avoid": "velvet"}).asks
    assert asks == replace(usual, fibres=("linen", "cotton"), avoid=("velvet",))
    (asks,) = patterns.set_asks(small, "easy", {"weight_high": ""}).asks
    assert (asks.weight_low, asks.weight_high) == (usual.weight_low, None)


def test_a_name_is_not_a_number_which_would_mean_another_record(small: Stash) -> None:
    texts = {"name": " 7 "}
    for adding, noun in (
        (cloths.add_cloth, "cloth"),
        (patterns.add_pattern, "pattern"),
        (makes.add_make, "make"),
        (people.add_person, "person"),
    ):
        with pytest.raises(BadInputError, match=f"Name: '7' is only a number.*: {noun} 7"):
            adding(small, texts)
    with pytest.raises(BadInputError, match="'7' is only a number"):
        cloths.edit_cloth(small, "olive", texts)


def test_an_older_name_of_digits_stays_until_it_is_changed(small: Stash) -> None:
    olive = cloths.get_cloth(small, "olive")
    with small.write("as it was once") as session:
        kept = store.insert_cloth(session, replace(olive, id=0, name=str(olive.id)))
    assert cloths.get_cloth(small, str(olive.id)) == olive  # the number counts before the name
    edited = cloths.edit_cloth(small, str(kept.id), {**cloths.cloth_texts(small, kept), "nap": "y"})
    assert (edited.name, edited.nap) == (str(olive.id), True)


@pytest.mark.parametrize(
    ("texts", "said"),
    [
        ({"weight_low": "300 gsm", "weight_high": "100 gsm"}, "weight from 300 .* to 100 "),
        ({"hand_low": "crisp", "hand_high": "fluid"}, "hand from crisp to fluid"),
    ],
)
def test_a_range_is_not_asked_upside_down(small: Stash, texts: dict[str, str], said: str) -> None:
    with pytest.raises(BadInputError, match=said):
        patterns.set_asks(small, "easy", texts)
    pattern = patterns.get_pattern(small, "easy")
    assert pattern.asks == ()
    part = next(p for p in parts_of(small, pattern) if p.kind is PartKind.ASKS)
    with pytest.raises(BadInputError, match=said):
        edit_part(small, "easy", part, texts, base=pattern)


def test_promises_are_held_within_what_is_left(small: Stash) -> None:
    held = promise(small, "rain", "main", "olive")
    assert held.length.nm % 10_000_000 == 0  # whole centimetres
    assert makes.get_make(small, "rain").state is State.PROMISED
    with pytest.raises(RefusedError, match="short"):
        promise(small, "rain", "main", "blue")
    assert [one.promise for one in makes.make_row(small, "rain").held] == [held]
    with pytest.raises(RefusedError, match="free"):
        promise(small, "rain", "main", "blue", "9 m")
    assert [one.promise for one in makes.make_row(small, "rain").held] == [held]
    (gone,) = release(small, "rain")
    assert gone == held
    assert makes.get_make(small, "rain").state is State.THOUGHT


def test_cutting_shortens_the_cloth_and_writes_the_diary(small: Stash) -> None:
    before = cloths.get_cloth(small, "olive").left
    with pytest.raises(RefusedError, match="holds no cloth"):
        cut(small, "rain")
    held = promise(small, "rain", None, "olive")
    cut(small, "rain")
    assert cloths.get_cloth(small, "olive").left == before - held.length
    assert makes.get_make(small, "rain").state is State.CUT
    (entry,) = diary.entries(small, cloth_ref="olive")
    assert (entry.kind, entry.day) == (DiaryKind.CUT, small.today())
    for again in (cut, release):
        with pytest.raises(RefusedError) as caught:
            again(small, "rain")
        assert f"was cut from olive cord on {small.today()} already" in caught.value.message
        assert "stash undo" in caught.value.hint


def test_a_length_that_is_none_is_said_to_be_none(small: Stash) -> None:
    with pytest.raises(RefusedError, match=r"0\.00 m is no length to hold"):
        promise(small, "rain", None, "olive", "0m")
    promise(small, "rain", None, "olive", "1.3 m")
    with pytest.raises(RefusedError, match=r"90\.00 m cannot be cut .* which is 1\.90"):
        cut(small, "rain", read_measured(used="90m"))
    with pytest.raises(RefusedError, match=r"0\.00 m is no length to be cut"):
        cut(small, "rain", read_measured(used="0m"))
    assert cloths.get_cloth(small, "olive").left == Length.from_mm(1900)


def test_a_promise_in_place_of_another_tells_what_is_let_go(small: Stash) -> None:
    said: list[str] = []
    promise(small, "rain", None, "blue", "1.2 m", remark=said.append)
    assert said == []
    promise(small, "rain", None, "olive", "1.3 m", remark=said.append)
    promise(small, "rain", None, "olive", "1.4 m", remark=said.append)
    assert said == ["1.20 m of blue stripe let go.", "It was 1.30 m before."]
