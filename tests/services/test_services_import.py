"""A table comes in whole, in part, once: looked at first, kept in one change, nothing lost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from stash.cloth.record import FibreShare, Structure
from stash.errors import BadInputError, NotFoundError, RefusedError
from stash.garment.make import DiaryKind
from stash.services.cloths import edit_cloth, remove_cloth, shelf
from stash.services.diary import entries
from stash.services.import_choices import Choices, load_choices, save_choices
from stash.services.importing import Preview, preview, take
from stash.services.makes import get_make, queue
from stash.services.patterns import get_pattern
from stash.services.row_numbers import parse_rows
from stash.services.undoing import undo
from stash.units.length import Length

if TYPE_CHECKING:
    from pathlib import Path

    from stash.services.stash import Stash

TABLE = """Fabric;Type;Width (cm);Length;Content;Bought at;Sheen;Got
Olive cord;woven;140;approx 2 yd;97% cotton 3% elastane;a market;dull;25/4/2020
Red jersey;;150;1,5 m;cotton lycra;;;3/4/2020
Blue lawn;woven;?;2 m;CO;;;
"""


def written(folder: Path, text: str, name: str = "shelf.csv") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def names(stash: Stash) -> list[str]:
    return [row.cloth.name for row in shelf(stash)]


def troubles(seen: Preview) -> dict[int, list[str]]:
    return {row.number: [t.where for t in row.troubles] for row in seen.rows if row.troubles}


def test_a_preview_writes_nothing_and_names_row_and_column(
    empty_stash: Stash, tmp_path: Path
) -> None:
    seen = preview(empty_stash, written(tmp_path, TABLE), Choices())
    assert troubles(seen) == {3: ["Content"], 4: ["Width (cm)"]}
    assert [column.label for column in seen.unknown] == ["Sheen"]
    assert seen.sample(seen.unknown[0]) == "dull"
    assert names(empty_stash) == []
    assert [path.name for path in tmp_path.iterdir() if path.is_file()] == ["shelf.csv"]


def test_a_row_whose_name_is_a_number_is_left_with_its_reason(
    empty_stash: Stash, tmp_path: Path
) -> None:
    table = "name,structure,width,left\n1042,woven,150 cm,2 m\nlawn 1043,woven,150 cm,2 m\n"
    seen = preview(empty_stash, written(tmp_path, table), Choices())
    [[trouble]] = [row.troubles for row in seen.rows if row.troubles]
    assert str(trouble).startswith("name: '1042' is only a number")
    assert str(trouble).endswith("Add a word to it: cloth 1042.")
    assert take(empty_stash, seen).taken == 1
    assert names(empty_stash) == ["lawn 1043"]


def test_a_cloth_nothing_can_be_laid_on_is_left_with_its_reason(
    empty_stash: Stash, tmp_path: Path
) -> None:
    shelf_with_shapes = """name,structure,width,left,flaws,outline
Good,woven,150 cm,2 m,"80 cm along, 40 cm across, 3 cm: ink","0 0, 900 0, 900 600, 0 640 mm"
Bow,woven,150 cm,2 m,,"0 0, 90 90, 90 0, 0 90 cm"
Line,woven,150 cm,2 m,,"0 0, 900 0, 400 0 mm"
Ink,woven,150 cm,2 m,"80 cm along, 40 cm across, 0 cm: ink",
Tear,woven,150 cm,2 m,"corners 0 0, 90 90, 90 0, 0 90 mm: tear",
"""
    seen = preview(empty_stash, written(tmp_path, shelf_with_shapes), Choices())
    told = {row.number: str(row.troubles[0]) for row in seen.rows if row.troubles}
    assert sorted(told) == [3, 4, 5, 6]
    assert "Bow can never be laid: the outline of this remnant crosses" in told[3]
    assert "near 450.0 x 450.0 mm. Give its corners in order, once round" in told[3]
    assert "Line can never be laid: the outline of this remnant crosses or touches" in told[4]
    assert "Ink can never be laid: there is no flaw at 80 x 40 cm with a radius of 0" in told[5]
    assert "Tear can never be laid: flaw 1 of those with corners crosses" in told[6]
    assert take(empty_stash, seen).taken == 1
    assert names(empty_stash) == ["Good"]


def test_columns_nobody_knows_are_asked_for_not_dropped(empty_stash: Stash, tmp_path: Path) -> None:
    path = written(tmp_path, TABLE)
    with pytest.raises(BadInputError, match="'Sheen'") as caught:
        take(empty_stash, preview(empty_stash, path, Choices()))
    assert "--map" in caught.value.hint
    assert names(empty_stash) == []


def test_taken_rows_say_all_their_table_said(empty_stash: Stash, tmp_path: Path) -> None:
    seen = preview(empty_stash, written(tmp_path, TABLE), Choices(others="notes"))
    taken = take(empty_stash, seen)
    assert (taken.taken, taken.left, taken.there) == (1, 2, 0)
    (row,) = shelf(empty_stash)
    cloth = row.cloth
    assert cloth.structure is Structure.WOVEN
    assert cloth.left == Length.from_inches(72)
    assert cloth.width == Length.from_mm(1400)
    assert cloth.fibres == (FibreShare("cotton", 97), FibreShare("elastane", 3))
    assert str(cloth.got) == "2020-04-25"
    assert cloth.notes == "Length: approx 2 yd\nBought at: a market\nSheen: dull"


def test_what_is_left_is_written_with_its_reasons_and_can_be_mended(
    empty_stash: Stash, tmp_path: Path
) -> None:
    path = written(tmp_path, TABLE)
    taken = take(empty_stash, preview(empty_stash, path, Choices(others="notes")))
    assert taken.left_in == tmp_path / "shelf.csv.left.csv"
    text = taken.left_in.read_text(encoding="utf-8-sig")
    assert "Why not taken" in text.splitlines()[0]
    assert "not how much of each" in text
    mended = text.replace("cotton lycra", "95% cotton 5% elastane").replace("?", "150")
    taken.left_in.write_text(mended, encoding="utf-8")
    choices = Choices(others="notes", dates="day-first")
    again = take(empty_stash, preview(empty_stash, taken.left_in, choices))
    assert (again.taken, again.left, again.left_in) == (2, 0, None)
    assert names(empty_stash) == ["Blue lawn", "Olive cord", "Red jersey"]


def test_a_file_of_left_rows_is_never_written_over(empty_stash: Stash, tmp_path: Path) -> None:
    path = written(tmp_path, TABLE)
    mine = written(tmp_path, "mended by hand", "shelf.csv.left.csv")
    taken = take(empty_stash, preview(empty_stash, path, Choices(others="leave")))
    assert taken.left_in == tmp_path / "shelf.csv.left-2.csv"
    assert mine.read_text(encoding="utf-8") == "mended by hand"


def test_a_second_time_nothing_is_doubled(empty_stash: Stash, tmp_path: Path) -> None:
    path = written(tmp_path, TABLE)
    choices = Choices(others="notes", unread="notes", fixed={"width": "140 cm"})
    first = take(empty_stash, preview(empty_stash, path, choices))
    assert (first.taken, first.left) == (3, 0)
    again = take(empty_stash, preview(empty_stash, path, choices))
    assert (again.taken, again.there, again.left) == (0, 3, 0)
    assert len(names(empty_stash)) == 3
    jersey = next(row.cloth for row in shelf(empty_stash) if row.cloth.name == "Red jersey")
    assert jersey.structure is Structure.KNIT, "the trade knows that jersey is knit"
    assert "Content: cotton lycra" in jersey.notes.splitlines()


def test_a_cloth_that_was_cut_or_renamed_since_is_known_again(
    empty_stash: Stash, tmp_path: Path
) -> None:
    path = written(
        tmp_path,
        "Name;Type;Width;Length\nCord;woven;140 cm;2 m\nLawn;woven;120 cm;3 m\n"
        "Voile;woven;150 cm;1 m\n",
    )
    assert take(empty_stash, preview(empty_stash, path, Choices())).taken == 3
    edit_cloth(empty_stash, "Cord", {"name": "Olive cord", "width": "136 cm"})
    edit_cloth(empty_stash, "Lawn", {"length": "1.2 m"})
    remove_cloth(empty_stash, "Voile")
    seen = preview(empty_stash, path, Choices())
    assert [bool(row.there) for row in seen.rows] == [True, True, False]
    assert "Olive cord (number 1), changed since" in seen.rows[0].remarks[0]
    undo(empty_stash)  # Voile is there again
    assert take(empty_stash, preview(empty_stash, path, Choices())).there == 3
    assert len(names(empty_stash)) == 3


def test_a_key_column_knows_a_row_again_when_its_length_changed(
    empty_stash: Stash, tmp_path: Path
) -> None:
    head = "No;Name;Type;Width;Length\n"
    choices = Choices(headings={"No": "notes"}, key="No")
    path = written(tmp_path, head + "7;Cord;woven;140 cm;2 m\n8;Cord;woven;140 cm;2 m\n")
    assert take(empty_stash, preview(empty_stash, path, choices)).taken == 2
    path = written(tmp_path, head + "7;Cord;woven;140 cm;1 m\n9;Cord;woven;140 cm;2 m\n")
    taken = take(empty_stash, preview(empty_stash, path, choices))
    assert (taken.taken, taken.there) == (1, 1)


def test_the_same_row_twice_in_one_table_is_told(empty_stash: Stash, tmp_path: Path) -> None:
    row = "Cord;woven;140 cm;2 m\n"
    path = written(tmp_path, "Name;Type;Width;Length\n" + row + row)
    seen = preview(empty_stash, path, Choices())
    assert "the same as row 2" in str(seen.rows[1].troubles[0])


def test_only_the_chosen_rows_are_taken(empty_stash: Stash, tmp_path: Path) -> None:
    rows = "".join(f"Cord {n};woven;140 cm;2 m\n" for n in range(5))
    seen = preview(empty_stash, written(tmp_path, "Name;Type;Width;Length\n" + rows), Choices())
    taken = take(empty_stash, seen, parse_rows("2-3, 6"))
    assert (taken.taken, taken.left) == (3, 2)
    assert names(empty_stash) == ["Cord 0", "Cord 1", "Cord 4"]
    with pytest.raises(BadInputError, match="Row 99"):
        take(empty_stash, seen, frozenset({99}))


def test_all_rows_are_kept_or_none(empty_stash: Stash, tmp_path: Path) -> None:
    """What has come in between looking and taking stops the whole of it."""
    path = written(tmp_path, "Name;Type;Width;Length\nA;woven;1 m;2 m\nB;woven;1 m;2 m\n")
    seen = preview(empty_stash, path, Choices())
    take(empty_stash, seen, frozenset({3}))
    with pytest.raises(RefusedError, match="meanwhile"):
        take(empty_stash, seen)
    assert names(empty_stash) == ["B"]


def test_choices_are_kept_in_a_file_and_read_back(tmp_path: Path) -> None:
    choices = Choices(
        kind="cloths",
        headings={'Odd "one" = \\ é\x7f': "notes", "Bin": "place"},
        units={"all": "metric", "width": "in"},
        fixed={"structure": "woven"},
        others="notes",
        dates="day-first",
    )
    save_choices(choices, tmp_path / "m.toml")
    assert load_choices(tmp_path / "m.toml") == choices
    for text in ("nothing = 1", "kind = 1", "headings = 'x'", "[units]\nwidth = 1", "="):
        with pytest.raises(BadInputError):
            load_choices(written(tmp_path, text, "bad.toml"))
    with pytest.raises(NotFoundError):
        load_choices(tmp_path / "none.toml")


@pytest.mark.parametrize(
    ("choices", "part"),
    [
        (Choices(headings={"Nowhere": "notes"}), "no column"),
        (Choices(headings={"Sheen": "gloss"}), "no field"),
        (Choices(headings={"Sheen": "width", "Type": "width"}), "cannot both"),
        (Choices(kind="hats"), "no kind"),
        (Choices(sheet="Other"), "no sheet"),
        (Choices(key="Sheen"), "goes into the notes"),
    ],
)
def test_choices_that_do_not_fit_are_told(
    empty_stash: Stash, tmp_path: Path, choices: Choices, part: str
) -> None:
    with pytest.raises(BadInputError, match=part):
        preview(empty_stash, written(tmp_path, TABLE), choices)


@pytest.mark.parametrize("text", ["0", "5-2", "a", "1-", "", "1,,2", "99999999"])
def test_rows_that_are_none(text: str) -> None:
    with pytest.raises(BadInputError):
        parse_rows(text)


def test_makes_come_in_with_what_tests_what(small: Stash, tmp_path: Path) -> None:
    path = written(
        tmp_path,
        "Project;Pattern;Size;Toile for;Status\n"
        "Trial pair;easy trousers;42;Good pair;idea\nGood pair;easy trousers;42;;wip\n"
        "Odd pair;no such pattern;42;;\nLarge pair;easy trousers;60;;\n",
    )
    seen = preview(small, path, Choices())
    assert seen.kind.key == "makes"
    assert troubles(seen) == {4: ["Pattern"], 5: ["The row"]}
    assert take(small, seen).taken == 2
    assert get_make(small, "Trial pair").muslin_for == get_make(small, "Good pair").id
    assert {row.make.state.value for row in queue(small)} >= {"thought", "sewing"}


def test_an_envelope_chart_comes_in_with_its_widths_across(small: Stash, tmp_path: Path) -> None:
    path = written(tmp_path, 'Size;45";60"\n40;2 5/8 yd;1 7/8 yd\n42;-;2 yd\n')
    choices = Choices(kind="chart", fixed={"pattern": "easy trousers"})
    assert take(small, preview(small, path, choices)).taken == 3
    amounts = {
        (row.size, float(row.width.inches), float(row.amount.inches))
        for row in get_pattern(small, "easy trousers").charts
    }
    assert amounts == {("40", 45.0, 94.5), ("40", 60.0, 67.5), ("42", 60.0, 72.0)}
    assert take(small, preview(small, path, choices)).there == 3


def test_a_diary_comes_in(small: Stash, tmp_path: Path) -> None:
    path = written(
        tmp_path, "Date;Event;Fabric;What happened\n12.3.2024;anprobe;olive cord;too wide\n"
    )
    seen = preview(small, path, Choices())
    assert seen.kind.key == "diary"
    assert take(small, seen).taken == 1
    line = entries(small)[0]
    assert (line.kind, str(line.day), line.text) == (DiaryKind.FITTING, "2024-03-12", "too wide")


def test_words_and_slips_of_a_german_table(empty_stash: Stash, tmp_path: Path) -> None:
    path = written(
        tmp_path,
        "Stoff;Art;Breite;Länge;Fach\nOlivcord;gewebt;140 cm;2 m;A1\n"
        "Roter Jersey;Strick;1,50;1 m;A2\n",
    )
    seen = preview(empty_stash, path, Choices(units={"all": "metric"}))
    assert {c.label: c.field for c in seen.columns}["Art"] == "structure"
    assert seen.rows[0].values["structure"] is Structure.WOVEN
    assert "narrower than any cloth" in str(seen.rows[1].troubles[0])  # 1.5 m, not 1.5 cm


def test_a_sum_is_no_cloth_and_titles_are_told(empty_stash: Stash, tmp_path: Path) -> None:
    path = written(
        tmp_path,
        "My stash;;;\nName;Type;Width;Length\nCord;woven;1 m;2 m\n"
        "Name;Type;Width;Length\nTotal;;;2 m\n",
    )
    seen = preview(empty_stash, path, Choices())
    assert [number for number, _ in seen.passed] == [1, 4]
    assert "a sum" in str([str(t) for t in seen.rows[1].troubles])
    assert take(empty_stash, seen).taken == 1


def test_a_cloth_may_be_called_total(empty_stash: Stash, tmp_path: Path) -> None:
    """Its row says all that a cloth must; that of a sum has nothing for some columns."""
    path = written(tmp_path, "Name;Type;Width;Length\nTotal;woven;1 m;2 m\nTotal:;;;2 m\n")
    seen = preview(empty_stash, path, Choices(fixed={"structure": "woven", "width": "1 m"}))
    assert [len(row.troubles) for row in seen.rows] == [0, 1]
    assert take(empty_stash, seen).taken == 1
