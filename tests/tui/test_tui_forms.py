"""Forms take what a person types, and say beside the field what cannot be understood."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, cast

import pytest
from tui_kit import fill_form, go, heading, place, rows, settled, shown, until

from stash.cloth.record import Flaw
from stash.services.cloths import get_cloth, shelf
from stash.services.promises import promise
from stash.store import cloths
from stash.tui.app import StashApp
from stash.tui.screens.form import FormScreen
from stash.tui.widgets.rows import Rows
from stash.units.length import Length

if TYPE_CHECKING:
    from textual.pilot import Pilot

    from stash.services.stash import Stash


async def open_form(pilot: Pilot[None], key: str) -> FormScreen:
    await pilot.press(key)
    await until(pilot, lambda: isinstance(pilot.app.screen, FormScreen))
    return cast("FormScreen", pilot.app.screen)


async def test_widths_and_lengths_as_they_are_spoken(empty_stash: Stash) -> None:
    async with StashApp(empty_stash).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("a")
        texts = {"name": "Stripe", "structure": "wov", "width": '58/60"', "length": "2½ yd"}
        await fill_form(pilot, texts)
        await until(pilot, lambda: place(pilot) == "shelf")
    cloth = get_cloth(empty_stash, "Stripe")
    # Of a range the narrower counts; 1 in = 25.4 mm and 1 yd = 36 in exactly (1959 agreement).
    assert cloth.width == Length.from_inches(58)
    assert cloth.left == Length.from_inches(90)


async def test_every_error_stands_beside_its_field_and_nothing_is_kept(empty_stash: Stash) -> None:
    async with StashApp(empty_stash).run_test(size=(120, 40)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("a")
        await fill_form(
            pilot,
            {
                "name": "1042",
                "structure": "woven",
                "width": "-140 cm",
                "length": "two",
                "fibres": "7",
            },
        )
        await settled(pilot)
        form = cast("FormScreen", pilot.app.screen)
        wrong = {key for key, row in form.rows.items() if row.has_class("-wrong")}
        assert wrong == {"name", "width", "length", "fibres"}
        assert form.focused is form.rows["name"].input
        lines = shown(pilot).splitlines()
        label = next(i for i, line in enumerate(lines) if line.strip().startswith("Width"))
        assert "✗" in lines[label + 1]
    assert shelf(empty_stash) == ()


async def test_required_fields_say_so(empty_stash: Stash) -> None:
    async with StashApp(empty_stash).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        form = await open_form(pilot, "a")
        await pilot.press("ctrl+s")
        await settled(pilot)
        wrong = {key for key, row in form.rows.items() if row.has_class("-wrong")}
        assert wrong == {"name", "structure", "width", "length"}


async def test_leaving_a_form_with_something_typed_asks_first(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await open_form(pilot, "a")
        await pilot.press("x", "escape")
        await until(pilot, lambda: place(pilot) == "confirm")
        await pilot.press("n")
        await until(pilot, lambda: place(pilot) == "form")
        await pilot.press("escape", "y")
        await until(pilot, lambda: place(pilot) == "shelf")
    assert len(shelf(small)) == 2


async def test_editing_changes_only_what_was_typed(small: Stash) -> None:
    before = get_cloth(small, "blue stripe")
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("e")
        await fill_form(pilot, {"place": "second drawer"})
        await until(pilot, lambda: place(pilot) == "shelf")
        await settled(pilot)
        assert "Kept blue stripe" in shown(pilot)
    after = get_cloth(small, "blue stripe")
    assert after.place == "second drawer"
    assert (after.width, after.left, after.bought) == (before.width, before.left, before.bought)


async def test_removing_asks_and_then_removes(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("d", "y")
        await until(pilot, lambda: len(rows(pilot)) == 1)
    assert [row.cloth.name for row in shelf(small)] == ["olive cord"]


async def test_a_cloth_called_washed_tells_that_it_was_measured_before(small: Stash) -> None:
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("e")
        await fill_form(pilot, {"washed": "yes"})
        await until(pilot, lambda: "was measured before the wash" in shown(pilot))
    assert get_cloth(small, "blue").left == Length.from_mm(1500)


async def test_a_cut_tells_what_became_of_a_flaw(small: Stash) -> None:
    with small.write("a flaw") as session:
        olive = cloths.find_cloth(session, "olive")
        cloths.update_cloth(session, replace(olive, flaws=(Flaw(1800, 700, 20, "ink"),)))
    promise(small, "rain", None, "olive", "1.3 m")
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "4", "makes")
        await pilot.press("c", "y")
        await until(pilot, lambda: "The ink of olive cord is 50 cm" in shown(pilot))


async def test_a_flaw_and_an_outline_are_typed_and_shown_beside_the_shelf(small: Stash) -> None:
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("e")
        texts = {"flaws": "80cm,40cm,3cm: ink", "outline": "0 0, 150 0, 140 80, 0 70 cm"}
        await fill_form(pilot, texts)
        await until(pilot, lambda: place(pilot) == "shelf")
        await until(pilot, lambda: "Flaws: 80 cm along" in shown(pilot))
    cloth = get_cloth(small, "blue stripe")
    assert cloth.flaws == (Flaw(800, 400, 30, "ink"),)
    assert cloth.outline == ((0, 0), (1500, 0), (1400, 800), (0, 700))


async def test_a_pattern_in_use_is_not_removed(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "3", "patterns")
        await pilot.press("d", "y")
        await until(pilot, lambda: "✗" in shown(pilot))
        assert len(rows(pilot)) == 1


async def test_the_filter_narrows_and_escape_brings_all_back(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("slash", *"olive")
        await until(pilot, lambda: len(rows(pilot)) == 1)
        await pilot.press("escape")
        await until(pilot, lambda: len(rows(pilot)) == 2)
        assert place(pilot) == "shelf"


async def test_a_filter_that_is_refused_keeps_the_keys_until_it_is_mended(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("slash", *"width>=abc", "enter")
        await until(pilot, lambda: "✗" in shown(pilot))
        await settled(pilot)
        await pilot.press("enter", *["backspace"] * 3, *"d1")
        assert place(pilot) == "shelf"
        await pilot.press("backspace", "backspace", *"120cm")
        await until(pilot, lambda: "✗" not in shown(pilot))
        await pilot.press("enter")
        await until(pilot, lambda: isinstance(pilot.app.focused, Rows))
        await pilot.press("d")
        await until(pilot, lambda: "Remove the cloth" in shown(pilot))


async def test_a_make_offers_the_sizes_of_its_pattern(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "4", "makes")
        form = await open_form(pilot, "a")
        form.rows["pattern"].input.value = "easy trousers"
        form.rows["size"].input.focus()
        await until(pilot, lambda: "40, 42" in shown(pilot))


@pytest.mark.parametrize("size", [(80, 24), (80, 18)])
async def test_the_last_shape_is_seen_and_a_letter_finds_one(
    small: Stash, size: tuple[int, int]
) -> None:
    async with StashApp(small).run_test(size=size) as pilot:
        await go(pilot, "3", "patterns")
        await pilot.press("p")
        await until(pilot, lambda: place(pilot) == "choose")
        await pilot.press("end")
        await until(pilot, lambda: "collar stand:" in shown(pilot))
        assert "enter\u00a0Take" in shown(pilot)
        await pilot.press("t", "t", "enter")
        await until(pilot, lambda: place(pilot) == "form")
        assert heading(pilot).startswith("Trouser front for ")


async def test_the_same_name_again_is_told(small: Stash) -> None:
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("a")
        texts = {"name": "olive cord", "structure": "woven", "width": "1 m", "length": "1 m"}
        await fill_form(pilot, texts)
        await until(pilot, lambda: place(pilot) == "shelf")
        await until(pilot, lambda: "There is another cloth of that name" in shown(pilot))
