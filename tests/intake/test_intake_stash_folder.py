"""A folder is read whole or not at all, and every problem names its file and line."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from stash.cloth.record import Flaw, Hand, Structure
from stash.errors import BadInputError, NotFoundError
from stash.intake.stash_folder import MARK, read_stash_folder
from stash.units.length import Length

if TYPE_CHECKING:
    from pathlib import Path

HEAD = (
    "name,structure,fibres,width,bought,left,washed,weight,stretch across,hand,colour,price,flaws"
)
ROW = (
    'Blue twill,woven,95% cotton 5% elastane,"58/60""",2 5/8 yd,"1,5 m",yes,240 gsm,'
    '4 in to 5.4 in,firm,#1F2A44,"12,50","80 cm along, 40 cm across, 3 cm: ink"'
)
PATTERN = """
name = "Any trousers"
kind = "elastic trousers"
views = ["A"]
[[size]]
label = "M"
body = { hip_girth = "38 in" }
[[chart]]
widths = ['45"', '58/60"']
amounts = { M = ["-", "1 1/2 yd"] }
"""
MAKES = """
[[make]]
name = "First pair"
pattern = "Any trousers"
size = "M"
due = 2026-12-05
[[make.cloth]]
name = "Blue twill"
length = "1.4 m"

[[make]]
name = "Trial pair"
pattern = "Any trousers"
muslin = true
muslin_for = "First pair"
"""


def _write(
    folder: Path,
    *,
    cloths: str = f"{HEAD}\n{ROW}\n",
    pattern: str = PATTERN,
    makes: str = MAKES,
    diary: str = "",
) -> Path:
    (folder / "patterns").mkdir()
    (folder / "cloths.csv").write_text(cloths, encoding="utf-8")
    (folder / "patterns" / "any.toml").write_text(pattern, encoding="utf-8")
    (folder / "makes.toml").write_text(makes, encoding="utf-8")
    if diary:
        (folder / "diary.csv").write_text(diary, encoding="utf-8")
    return folder


def test_mixed_units_are_read_as_people_write_them(tmp_path: Path) -> None:
    """2 5/8 yd is 94.5 in (36 in to the yard); 4 in pulled to 5.4 in is 35 %."""
    (cloth,) = read_stash_folder(_write(tmp_path)).cloths
    assert cloth.structure is Structure.WOVEN
    assert cloth.width == Length.from_inches(58)
    assert cloth.bought == Length.from_inches(94.5)
    assert cloth.left == Length.from_mm(1500)
    assert cloth.washed
    assert cloth.weight == pytest.approx(240)
    assert cloth.stretch_across == pytest.approx(35)
    assert cloth.stretch_along is None
    assert cloth.hand is Hand.FIRM
    assert (cloth.colour, cloth.price) == ("#1f2a44", Decimal("12.50"))
    assert [(share.fibre, share.percent) for share in cloth.fibres] == [
        ("cotton", 95),
        ("elastane", 5),
    ]
    assert cloth.flaws == (Flaw(800, 400, 30, "ink"),)


def test_charts_makes_and_promises_are_read(tmp_path: Path) -> None:
    files = read_stash_folder(_write(tmp_path))
    (row,) = files.patterns[0].charts
    assert (row.size, row.amount) == ("M", Length.from_inches(54))
    first, trial = files.makes
    assert first.make.due is not None
    assert first.make.due.isoformat() == "2026-12-05"
    assert (trial.make.muslin, trial.muslin_for) == (True, "First pair")
    (promise,) = files.promises
    assert (promise.make.name, promise.cloth) == ("First pair", "Blue twill")


@pytest.mark.parametrize(
    ("outline", "larger"),
    [("0 0, 1500 0, 1500 600", False), ("0 0, 1502 0, 0 600", True), ("0 0, 9 0, 0 1600", True)],
)
def test_an_outline_larger_than_its_cloth_is_doubted(
    tmp_path: Path, outline: str, larger: bool
) -> None:
    folder = _write(tmp_path, cloths=f'{HEAD},outline\n{ROW},"{outline}"\n')
    if larger:
        with pytest.raises(BadInputError, match=r"line 2 .*outline is larger than the cloth"):
            read_stash_folder(folder)
    # What the program wrote itself comes back as it was.
    (folder / MARK).write_text("format = 1\n")
    (cloth,) = read_stash_folder(folder).cloths
    assert len(cloth.outline) == 3


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("2 5/8 yd", "plenty", ["cloths.csv, line 2", "bought", "'plenty'"]),
        ('"58/60"""', "-140 cm", ["cloths.csv, line 2", "width", "negative"]),
        ("95% cotton", "95% unobtainium", ["cloths.csv, line 2", "fibres", "unobtainium"]),
        ("woven", "wovne", ["cloths.csv, line 2", "structure", "'wovne'"]),
        (",yes,", ",maybe,", ["cloths.csv, line 2", "washed", "'maybe'"]),
        ("firm", "floppy", ["cloths.csv, line 2", "hand", "'floppy'"]),
        ("#1F2A44", "navy", ["cloths.csv, line 2", "colour", "'navy'"]),
        ('"1,5 m"', "9 m", ["cloths.csv, line 2", "more is left"]),
        ('"1,5 m"', "", ["cloths.csv, line 2", "the left is missing"]),
        ("Blue twill,", "Blue twill,extra,", ["cloths.csv, line 2", "not as many cells"]),
        ("stretch across", "stretchiness", ["cloths.csv, line 1", "'stretchiness'"]),
        ("80 cm along", "80 cm across", ["cloths.csv, line 2", "flaws"]),
        ("across, 3 cm", "across, 0 cm", ["line 2", "Blue twill can never be laid", "radius of 0"]),
    ],
)
def test_a_wrong_cell_is_one_sentence_with_its_line(
    tmp_path: Path, old: str, new: str, told: list[str]
) -> None:
    text = f"{HEAD}\n{ROW}\n"
    assert old in text
    with pytest.raises(BadInputError) as caught:
        read_stash_folder(_write(tmp_path, cloths=text.replace(old, new, 1)))
    for part in told:
        assert part in caught.value.message
    assert "\n" not in caught.value.message


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('pattern = "Any trousers"\nsize', 'pattern = "No such"\nsize', ["line 2", "No such"]),
        ('size = "M"', 'size = "XXL"', ["line 2 (First pair)", "size", "'XXL'"]),
        ('"Blue twill"', '"Blue twil"', ["First pair", "no cloth called 'Blue twil'"]),
        ('"1.4 m"', '"1.6 m"', ["First pair", "promised than is left"]),
        ('"1.4 m"', '"14"', ["First pair", "length", "no unit"]),
        ("2026-12-05", '"soon"', ["line 2 (First pair), due", "'soon'"]),
        ("muslin = true", 'muslin = "yes"', ["line 11 (Trial pair)", "muslin", "true or false"]),
        ('muslin_for = "First', 'muslin_for = "Last', ["line 11", "'Last pair'"]),
        ('name = "Trial pair"', 'name = "First pair"', ["'First pair' stands there twice"]),
        ("muslin = true", "musslin = true", ["line 11", "'musslin'"]),
        ("[[make.cloth]]", "[[make.cloth", ["makes.toml", "line 7"]),
    ],
)
def test_a_wrong_make_is_told_with_its_line(
    tmp_path: Path, old: str, new: str, told: list[str]
) -> None:
    assert old in MAKES
    with pytest.raises(BadInputError) as caught:
        read_stash_folder(_write(tmp_path, makes=MAKES.replace(old, new, 1)))
    for part in told:
        assert part in caught.value.message


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("elastic trousers", "space suit", ["any.toml, kind", "'space suit'"]),
        ('"1 1/2 yd"]', '"some"]', ["any.toml, chart 1, amounts, M", "'some'"]),
        ('["-", "1 1/2 yd"]', '["1 1/2 yd"]', ["any.toml, chart 1", "there should be 2"]),
        ("M = [", "L = [", ["any.toml, chart", "no size called 'L'"]),
        ('views = ["A"]', 'drawings = ["gone.svg"]', ["any.toml, drawings", "no file"]),
        ('views = ["A"]', 'drawings = ["../x.svg"]', ["any.toml, drawings", "not a file beside"]),
        ('"38 in"', '"38 inchworms"', ["any.toml, size 1, body, hip_girth"]),
        (
            "[[size]]",
            '[[asks]]\nweight_low = "300 gsm"\nweight_high = "100 gsm"\n[[size]]',
            ["any.toml, asks 1", "its weight is asked from more to less"],
        ),
    ],
)
def test_a_wrong_pattern_is_told_with_its_place(
    tmp_path: Path, old: str, new: str, told: list[str]
) -> None:
    assert old in PATTERN
    with pytest.raises(BadInputError) as caught:
        read_stash_folder(_write(tmp_path, pattern=PATTERN.replace(old, new, 1)))
    for part in told:
        assert part in caught.value.message


def test_every_problem_is_told_at_once(tmp_path: Path) -> None:
    cloths = f"{HEAD}\n{ROW}\n".replace("firm", "floppy").replace("240 gsm", "heavy")
    with pytest.raises(BadInputError) as caught:
        read_stash_folder(_write(tmp_path, cloths=cloths, pattern="name ="))
    assert "3 problems" in caught.value.message
    for part in ("hand", "weight", "any.toml"):
        assert part in caught.value.message


def test_the_diary_names_what_it_is_about(tmp_path: Path) -> None:
    lines = "day,kind,cloth,make,text\n2026-11-20,cut,Blue twill,,Cut it.\n"
    (read,) = read_stash_folder(_write(tmp_path, diary=lines)).diary
    assert (read.cloth, read.make, read.entry.text) == ("Blue twill", "", "Cut it.")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("20 Nov,cut,,,x", "diary.csv, line 2, day"),
        ("2026-11-20,burned,,,x", "diary.csv, line 2, kind"),
        ("2026-11-20,cut,Gone,,x", "no cloth called 'Gone'"),
        ("2026-11-20,cut,x", "there should be 5 cells"),
    ],
)
def test_a_wrong_diary_line_is_told(tmp_path: Path, line: str, told: str) -> None:
    with pytest.raises(BadInputError, match=told):
        read_stash_folder(_write(tmp_path, diary=f"day,kind,cloth,make,text\n{line}\n"))


def test_a_folder_without_cloths_is_no_stash(tmp_path: Path) -> None:
    with pytest.raises(NotFoundError, match=r"no cloths\.csv"):
        read_stash_folder(tmp_path)
