"""Undo and redo by keys, the history, and two programs at one stash."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ready_stash import clock
from tui_kit import fill_form, go, place, rows, settled, shown, until

from stash.services.cloths import edit_cloth, get_cloth, remove_cloth, shelf
from stash.services.history import history
from stash.services.stash import Stash
from stash.tui.actions import ROOMS
from stash.tui.app import StashApp
from stash.units.length import Length

if TYPE_CHECKING:
    from textual.pilot import Pilot


async def test_undo_and_redo_say_what_they_did(small: Stash) -> None:
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "2", "shelf")
        await pilot.press("d", "y")
        await until(pilot, lambda: len(rows(pilot)) == 1)
        await settled(pilot)
        await pilot.press("ctrl+z")
        await until(pilot, lambda: "Undone: remove cloth blue stripe" in shown(pilot))
        await until(pilot, lambda: len(rows(pilot)) == 2)
        await settled(pilot)
        await pilot.press("ctrl+y")
        await until(pilot, lambda: "Done again: remove cloth blue stripe" in shown(pilot))
        await until(pilot, lambda: len(rows(pilot)) == 1)
        await settled(pilot)
        await pilot.press("ctrl+y")
        await until(pilot, lambda: "nothing to do again" in shown(pilot))
    assert [row.cloth.name for row in shelf(small)] == ["olive cord"]


async def test_undo_works_in_every_room(small: Stash) -> None:
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        for number, room in enumerate(ROOMS):
            edit_cloth(small, "olive cord", {"notes": f"note {number}"})
            await go(pilot, room.key, room.name)
            await pilot.press("ctrl+z")
            await until(pilot, lambda: "Undone: edit cloth olive cord" in shown(pilot))
            await settled(pilot)
            assert get_cloth(small, "olive cord").notes == ""


async def open_history(pilot: Pilot[None]) -> None:
    await go(pilot, "7", "diary")
    await pilot.press("h")
    await until(pilot, lambda: place(pilot) == "history")
    await settled(pilot)


async def test_the_history_shows_before_and_after_and_undoes_any_entry(small: Stash) -> None:
    edit_cloth(small, "olive cord", {"length": "1.5 m"})
    edit_cloth(small, "blue stripe", {"place": "attic"})
    async with StashApp(small).run_test(size=(120, 40)) as pilot:
        await open_history(pilot)
        assert "edit cloth blue stripe" in rows(pilot)[0]
        await pilot.press("down")
        await until(pilot, lambda: "1.90 m → 1.50 m" in shown(pilot))
        await pilot.press("u")
        await until(pilot, lambda: "Undone: edit cloth olive cord" in shown(pilot))
        await settled(pilot)
        assert "undo: edit cloth olive cord" in rows(pilot)[0]
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "diary")
    # 1.90 m is what the small stash starts with; the note on the other cloth stays.
    assert get_cloth(small, "olive cord").left == Length.from_mm(1900)
    assert get_cloth(small, "blue stripe").place == "attic"


async def test_the_later_writer_sees_both_and_puts_his_on_top(small: Stash) -> None:
    with Stash.open(clock=clock) as other:
        async with StashApp(small).run_test(size=(80, 24)) as pilot:
            await go(pilot, "2", "shelf")
            await pilot.press("e")
            await until(pilot, lambda: place(pilot) == "form")
            edit_cloth(other, "blue stripe", {"length": "1.2 m", "care": "cold"})
            await fill_form(pilot, {"length": "1.4 m", "place": "attic"})
            await until(pilot, lambda: place(pilot) == "clash")
            await settled(pilot)
            assert [row.split(" | ") for row in rows(pilot)] == [
                ["Length left", "1.20 m", "1.40 m", "1.50 m"],
                ["Care", "cold", "–", "–"],
                ["Place", "–", "attic", "–"],
            ]
            await pilot.press("escape")
            await until(pilot, lambda: place(pilot) == "form")
            assert get_cloth(other, "blue stripe").left == Length.from_mm(1200)
            await pilot.press("ctrl+s")
            await until(pilot, lambda: place(pilot) == "clash")
            await pilot.press("m")
            await until(pilot, lambda: place(pilot) == "shelf")
            await settled(pilot)
        kept = get_cloth(other, "blue stripe")
    assert (kept.left, kept.care, kept.place) == (Length.from_mm(1400), "cold", "attic")


async def test_keeping_theirs_leaves_theirs(small: Stash) -> None:
    with Stash.open(clock=clock) as other:
        async with StashApp(small).run_test(size=(80, 24)) as pilot:
            await go(pilot, "2", "shelf")
            await pilot.press("e")
            await until(pilot, lambda: place(pilot) == "form")
            edit_cloth(other, "blue stripe", {"length": "1.2 m"})
            await fill_form(pilot, {"length": "1.4 m"})
            await until(pilot, lambda: place(pilot) == "clash")
            await pilot.press("t")
            await until(pilot, lambda: place(pilot) == "shelf")
            await settled(pilot)
        assert get_cloth(other, "blue stripe").left == Length.from_mm(1200)
        assert "blue stripe" in history(other)[0].what


async def test_what_another_program_changes_is_noticed(small: Stash) -> None:
    with Stash.open(clock=clock) as other:
        async with StashApp(small).run_test(size=(80, 24)) as pilot:
            await go(pilot, "2", "shelf")
            remove_cloth(other, "blue stripe")
            await until(pilot, lambda: "Changed elsewhere" in shown(pilot))
            await until(pilot, lambda: len(rows(pilot)) == 1)
            assert "remove cloth blue stripe" in shown(pilot)
