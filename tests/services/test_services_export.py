"""What goes out comes back the very same, and no cell of it can run."""

from __future__ import annotations

import csv
import string
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook
from server_kit import BACKENDS
from shapely.geometry import Polygon

from stash.cloth.record import Cloth, FibreShare, Flaw, Hand, Structure
from stash.config import Settings, System
from stash.errors import BadInputError
from stash.garment.make import DiaryKind
from stash.services.diary import add_entry, entries
from stash.services.exporting import export_sheet
from stash.services.import_choices import Choices
from stash.services.importing import preview, take
from stash.services.makes import add_make, get_make, remove_make
from stash.services.patterns import add_chart_row, get_pattern
from stash.store import cloths as store
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from ready_stash import Ready

    from stash.services.stash import Stash

LENGTHS = st.one_of(
    st.integers(0, 100_000).map(lambda mm: Length(mm * 10**6)),
    st.integers(0, 10**10).map(Length),
    st.integers(0, 80).map(lambda eighths: Length(eighths * 114_300_000)),
)
REPEATS = LENGTHS.filter(lambda repeat: repeat.mm <= 12_000)
PERCENT = st.none() | st.floats(0, 99, allow_subnormal=False).map(lambda x: round(x, 6))
MM = st.integers(0, 10**6).map(lambda hundredths: hundredths / 100)
WORDS = st.text(string.ascii_letters + "äß,;'\"=+-@#0123456789 \n|", max_size=30).map(str.strip)


@st.composite
def fibres(draw: st.DrawFn) -> tuple[FibreShare, ...]:
    most = draw(st.integers(51, 100))
    if draw(st.booleans()):
        return ()
    rest = (FibreShare("elastane", 100.0 - most),) if most < 100 else ()
    return (FibreShare("cotton", float(most)), *rest)


def is_ring(corners: tuple[tuple[float, float], ...]) -> bool:
    """It goes once round and is more than a line; other outlines do not come in."""
    shape = Polygon(corners)
    return bool(shape.is_valid and shape.area >= max(1, shape.length / 20))


RINGS = st.lists(st.tuples(MM, MM), min_size=3, max_size=5, unique=True).map(tuple).filter(is_ring)


def flaws() -> st.SearchStrategy[tuple[Flaw, ...]]:
    what = WORDS.map(lambda text: text or "flaw")
    round_ones = st.builds(Flaw, MM, MM, MM.filter(bool), what)
    return st.lists(round_ones | st.builds(Flaw.cornered, RINGS, what), max_size=2).map(tuple)


CLOTHS = st.builds(
    Cloth,
    name=WORDS.filter(lambda word: bool(word) and not word.isdigit()),
    structure=st.sampled_from(Structure),
    fibres=fibres(),
    width=st.integers(200_000_000, 3_000_000_000).map(Length),
    selvedge=st.integers(0, 50_000_000).map(Length),
    bought=LENGTHS.filter(bool),
    left=LENGTHS,
    washed=st.booleans(),
    shrink_length=PERCENT,
    shrink_width=PERCENT,
    weight=st.none() | st.floats(1, 2000),
    stretch_across=PERCENT,
    stretch_along=PERCENT,
    recovery=PERCENT,
    hand=st.none() | st.sampled_from(Hand),
    bending_length=st.none() | st.floats(1, 200),
    drape=st.none() | st.integers(0, 10_000).map(lambda hundredths: hundredths / 100),
    nap=st.booleans(),
    raised=st.booleans(),
    sheer=st.booleans(),
    repeat_length=REPEATS,
    repeat_width=REPEATS,
    half_drop=st.booleans(),
    colour=st.from_regex(r"#[0-9a-f]{6}", fullmatch=True),
    colour_name=WORDS,
    print=WORDS,
    flaws=flaws(),
    outline=RINGS | st.just(()),
    loved=st.integers(1, 5),
    price=st.none() | st.integers(0, 10**6).map(lambda cents: Decimal(cents).scaleb(-2)),
    again=st.booleans(),
    care=WORDS,
    place=WORDS,
    got=st.none() | st.dates(date(1950, 1, 1), date(2026, 9, 30)),
    notes=WORDS,
)


def plain(cloths: Iterable[Cloth]) -> list[Cloth]:
    """Without what a stash numbers by itself."""
    return sorted(
        (replace(cloth, id=0, version=1) for cloth in cloths), key=lambda c: (c.name, c.left)
    )


@pytest.fixture(scope="module")
def two(
    ready: Callable[[str], Ready], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Stash, Stash]]:
    first, second = tmp_path_factory.mktemp("from"), tmp_path_factory.mktemp("to")
    with ready("empty").copy(first) as one, ready("empty").copy(second) as other:
        yield one, other


@pytest.mark.parametrize("kind", [".csv", ".xlsx"])
@pytest.mark.parametrize("system", list(System))
@settings(max_examples=16 // len(BACKENDS), deadline=None, suppress_health_check=list(HealthCheck))
@given(
    shelf=st.lists(
        CLOTHS, min_size=1, max_size=3, unique_by=lambda c: " ".join(c.name.lower().split())
    )
)
def test_a_shelf_comes_back_equal(
    two: tuple[Stash, Stash], kind: str, system: System, shelf: list[Cloth]
) -> None:
    one, other = two
    file = one.home / f"shelf{kind}"
    for stash in two:
        stash.settings = Settings(system=system)
        with stash.write("begin anew") as session:
            for cloth in store.all_cloths(session):
                store.delete_cloth(session, cloth.id)
    with one.write("fill") as session:
        store.insert_cloths(session, shelf)
    assert export_sheet(one, file) == len(shelf)
    seen = preview(other, file, Choices())
    assert not [str(t) for row in seen.rows for t in row.troubles]
    assert take(other, seen).taken == len(shelf)
    with other.read() as session:
        assert plain(store.all_cloths(session)) == plain(shelf)
    assert take(one, preview(one, file, Choices())).there == len(shelf)


@pytest.mark.parametrize("kind", [".csv", ".xlsx"])
def test_makes_charts_and_diary_come_back(small: Stash, tmp_path: Path, kind: str) -> None:
    add_make(
        small,
        {"name": "trial", "pattern": "easy trousers", "size": "42", "muslin_for": "rain trousers"},
    )
    add_chart_row(
        small,
        "easy trousers",
        {"size": "42", "width": '58/60"', "amount": "2 5/8 yd", "with_nap": "no"},
    )
    add_entry(small, DiaryKind.FITTING, "-2 cm\nat the waist", cloth_ref="olive cord")
    made, chart, lines = (
        get_make(small, "trial"),
        get_pattern(small, "easy trousers").charts,
        entries(small),
    )
    files = {what: tmp_path / f"{what}{kind}" for what in ("makes", "chart", "diary")}
    for what, file in files.items():
        export_sheet(small, file, what)
        assert take(small, preview(small, file, Choices())).taken == 0, "all are there already"
    remove_make(small, "trial")
    seen = preview(small, files["makes"], Choices())
    assert seen.kind.key == "makes"
    assert take(small, seen).taken == 1
    back = get_make(small, "trial")
    assert replace(back, id=0, version=1) == replace(made, id=0, version=1)
    assert get_pattern(small, "easy trousers").charts == chart
    assert entries(small) == lines


def test_no_cell_that_goes_out_can_run(empty_stash: Stash, tmp_path: Path) -> None:
    evil = ("=1+1", "+1", "-1", "@x", "\tx", "=HYPERLINK(1)")
    with empty_stash.write("fill") as session:
        store.insert_cloths(
            session,
            [
                Cloth(
                    name=f"{text} {n}",
                    structure=Structure.WOVEN,
                    width=Length(10**9),
                    bought=Length(10**9),
                    left=Length(10**9),
                    notes=text,
                )
                for n, text in enumerate(evil)
            ],
        )
    export_sheet(empty_stash, tmp_path / "a.csv")
    export_sheet(empty_stash, tmp_path / "a.xlsx")
    with (tmp_path / "a.csv").open(encoding="utf-8-sig", newline="") as file:
        cells = [cell for row in csv.reader(file) for cell in row]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t"))]
    sheet = load_workbook(tmp_path / "a.xlsx").active
    assert sheet is not None
    for row in sheet.iter_rows():
        for cell in row:
            assert cell.data_type != "f", f"{cell.value} is a formula (ECMA-376, 18.18.11)"
            assert not str(cell.value or "").startswith(("=", "+", "-", "@", "\t"))


def test_a_kind_of_file_that_is_not_written(empty_stash: Stash, tmp_path: Path) -> None:
    with pytest.raises(BadInputError, match="no kind of table"):
        export_sheet(empty_stash, tmp_path / "a.pdf")
    with pytest.raises(BadInputError, match="cannot be written"):
        export_sheet(empty_stash, tmp_path / "no folder" / "a.csv")
