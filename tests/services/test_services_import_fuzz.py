"""Whatever stands in a table, it is read, told or refused; no cell of it vanishes."""

from __future__ import annotations

import csv
from contextlib import suppress
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.errors import BadInputError, StashError
from stash.services.import_choices import Choices, load_choices, read_pairs, read_units
from stash.services.importing import preview
from stash.services.row_numbers import parse_rows

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from ready_stash import Ready

    from stash.services.stash import Stash

HEADINGS = ("Name", "Width", "Length (m)", "Content", "Weight", "Washed", "Bought on", "Price")
CELLS = st.one_of(
    st.text("0123456789 ./,-xmcy%£€?coton", max_size=12),
    st.sampled_from(("2 5/8 yds", '58/60"', "CO 97 EL 3", "?", "approx 2m", "=1+1", "12.3.2020")),
    st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=12),
)


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("fuzz")


@pytest.fixture(scope="module")
def stash(ready: Callable[[str], Ready], place: Path) -> Iterator[Stash]:
    with ready("empty").copy(place / "home") as opened:
        yield opened


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(rows=st.lists(st.lists(CELLS, min_size=8, max_size=8), min_size=1, max_size=4))
def test_every_cell_is_read_or_told(stash: Stash, place: Path, rows: list[list[str]]) -> None:
    path = place / "table.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=";").writerows([HEADINGS, *rows])
    with suppress(BadInputError):
        seen = preview(stash, path, Choices(unread="notes"))
        for row in seen.rows:
            told = {trouble.where for trouble in row.troubles}
            for column in seen.columns:
                known = row.values.get(stash_name(column.field))
                read = known not in (None, "", ()) or column.label in told
                noted = f"{column.label}: " in row.texts.get("notes", "")
                cell = row.cells[column.place]
                unknown = column.field != "name" and known in (None, (), False)
                assert not cell or read or noted or unknown


def stash_name(field: str) -> str:
    return {"length": "left"}.get(field, field)


@given(st.text(max_size=60))
def test_typed_choices_are_read_or_refused(text: str) -> None:
    for read in (parse_rows, lambda word: read_pairs((word,), "a=b"), lambda w: read_units((w,))):
        with suppress(BadInputError):
            read(text)


@settings(suppress_health_check=list(HealthCheck))
@given(st.text('abchkey=[]"\n\\ {}.#1', max_size=60))
def test_a_file_of_choices_is_read_or_refused(place: Path, text: str) -> None:
    path = place / "choices.toml"
    path.write_text(text, encoding="utf-8")
    with suppress(StashError):
        load_choices(path)
