"""A table someone keeps, brought in by keyboard: looked at, mended, taken in part, undone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tui_kit import SIZES, fill_form, go, heading, place, rows, settled, shown, until

from stash.services.cloths import shelf
from stash.services.import_choices import load_choices
from stash.services.makes import get_make
from stash.tui.app import StashApp

if TYPE_CHECKING:
    from pathlib import Path

    from textual.pilot import Pilot

    from stash.services.stash import Stash

TABLE = """Fabric;Type;Width (cm);Length;Content;Sheen
Olive cord;woven;140;2 m;97% cotton 3% elastane;dull
Red jersey;;150;1,5 m;cotton lycra;
Blue lawn;woven;150;2 m;CO;
Grey twill;woven;140;3 m;CO;dull
"""


async def open_table(pilot: Pilot[None], path: Path, **more: str) -> None:
    await pilot.press("i")
    await fill_form(pilot, {"file": str(path), **more})
    await until(pilot, lambda: place(pilot) == "import")
    await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
async def test_a_table_is_looked_at_and_taken_in_part(
    empty_stash: Stash, tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "shelf.csv"
    path.write_text(TABLE, encoding="utf-8")
    async with StashApp(empty_stash).run_test(size=size) as pilot:
        await go(pilot, "2", "shelf")
        assert "i brings it in" in " ".join(shown(pilot).split())
        await open_table(pilot, path)
        assert heading(pilot) == "shelf.csv   3 of 4 rows chosen, ✗ 1 not understood"
        assert [row.split(" | ")[:3] for row in rows(pilot)] == [
            ["✓", "2", "Olive cord"],
            ["✗", "3", "Red jersey"],
            ["✓", "4", "Blue lawn"],
            ["✓", "5", "Grey twill"],
        ]
        assert "Not known: Sheen" in shown(pilot)
        await pilot.press("down")
        await until(pilot, lambda: "✗ Content" in shown(pilot))
        await pilot.press("enter")
        await until(pilot, lambda: "Say first what the columns are" in shown(pilot))

        await pilot.press("c", "enter", "p", "p", "p", "enter")  # Print, Price, Place
        await until(pilot, lambda: "Not known" not in shown(pilot))
        await settled(pilot)
        assert "dull" in {row.texts.get("place") for row in pilot.app.screen.seen.rows}  # type: ignore[attr-defined]
        await pilot.press("k")
        await fill_form(pilot, {})
        await until(pilot, lambda: "choices are kept" in shown(pilot))
        await pilot.press("down", "space")
        await until(pilot, lambda: rows(pilot)[2].startswith("·"))
        await pilot.press("enter")
        await until(pilot, lambda: "Take 2 cloths into the stash?" in shown(pilot))
        assert [row.cloth.name for row in shelf(empty_stash)] == []
        await pilot.press("y")
        await until(pilot, lambda: "✓ Taken: 2 cloths." in shown(pilot))
        await settled(pilot)
        assert "shelf.csv.left.csv" in shown(pilot).replace("\n", "")
        assert rows(pilot)[0].startswith("=")
        assert [row.cloth.name for row in shelf(empty_stash)] == ["Grey twill", "Olive cord"]
        await pilot.press("escape")
        await until(pilot, lambda: place(pilot) == "shelf" and len(rows(pilot)) == 2)
        await pilot.press("ctrl+z")
        await until(pilot, lambda: "✓ Undone: read 2 cloths from shelf.csv" in shown(pilot))
        assert shelf(empty_stash) == ()
    left = (tmp_path / "shelf.csv.left.csv").read_text(encoding="utf-8-sig")
    assert "It was not chosen." in left
    assert "not how much of each" in left
    assert load_choices(tmp_path / "shelf-choices.toml").headings["Sheen"] == "place"


async def test_makes_come_in_with_what_was_said_in_the_form(small: Stash, tmp_path: Path) -> None:
    path = tmp_path / "queue.csv"
    path.write_text("Project,Size,Mood\nTrial pair,42,bold\n", encoding="utf-8")
    async with StashApp(small).run_test(size=(80, 24)) as pilot:
        await go(pilot, "4", "makes")
        await open_table(pilot, path, kind="makes", fixed="pattern=easy trousers")
        await pilot.press("n")
        await until(pilot, lambda: "Not known" not in shown(pilot))
        await settled(pilot)
        await pilot.press("a", "enter")
        await until(pilot, lambda: "No row is chosen" in shown(pilot))
        await pilot.press("a", "enter", "y")
        await until(pilot, lambda: "✓ Taken: 1 make." in shown(pilot))
    assert get_make(small, "Trial pair").notes == "Mood: bold"


async def test_a_table_that_cannot_be_read_is_told_in_the_form(
    empty_stash: Stash, tmp_path: Path
) -> None:
    async with StashApp(empty_stash).run_test(size=(80, 24)) as pilot:
        await go(pilot, "7", "diary")
        await pilot.press("i")
        await fill_form(pilot, {"file": str(tmp_path / "none.xlsx")})
        await until(pilot, lambda: "There is no file" in shown(pilot))
        assert place(pilot) == "form"


async def test_a_missing_backup_is_told(empty_stash: Stash) -> None:
    empty_stash.warning = "Today's backup is missing. The folder cannot be written."
    async with StashApp(empty_stash).run_test(size=(80, 24)) as pilot:
        await settled(pilot)
        assert "! Today's backup is missing. The folder cannot be written." in shown(pilot)
        await pilot.press("2", "1")
        await settled(pilot)
