"""A whole stash written to files and read back is the same stash, field by field."""

from __future__ import annotations

import dataclasses
import os
import stat
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ready_stash import address
from server_kit import BACKENDS

from stash.cloth.record import Cloth, FibreShare, Flaw, Hand, Structure
from stash.config import Settings, System, load_settings
from stash.errors import BadInputError, RefusedError
from stash.garment.make import DiaryEntry, DiaryKind, Make, Person, Promise, State
from stash.garment.pattern import Asks, ChartRow, Grain, Kind, Notion, Pattern, Piece, Role, Size
from stash.intake.stash_folder import read_stash_folder
from stash.services import whole_export
from stash.services.keeping import restore
from stash.services.whole import Whole, read_whole
from stash.services.whole_import import import_all
from stash.store import cloths, diary, makes, patterns, people, promises
from stash.store.tables.every import metadata
from stash.store.whole import empty
from stash.trade.fibres import FIBRES
from stash.units.length import Length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from ready_stash import Ready

    from stash.services.stash import Stash

signs = st.characters(exclude_characters="\0", exclude_categories=["Cs"])
words = st.text(signs, max_size=15).map(str.strip)
names = words.filter(bool)
numbers = st.integers(0, 10**9).map(lambda n: n / 7919)  # digits to the very end
percent = st.integers(0, 99_999).map(lambda n: n / 1000)
lengths = st.integers(0, 10**13).map(Length)
widths = st.integers(1, 10**13).map(Length)
rings = st.lists(st.tuples(numbers, numbers), min_size=3, max_size=6).map(tuple)
money = st.decimals(0, 10**6, allow_nan=False, allow_infinity=False, places=2)
measures = st.lists(st.tuples(words, lengths), max_size=3).map(tuple)
steps = st.integers(1, 5)
DRAWN: dict[str, st.SearchStrategy[Any]] = {
    "str": words,
    "bool": st.booleans(),
    "int": steps,
    "int | None": st.none() | st.integers(0, 17),
    "float": numbers,
    "float | None": st.none() | percent.filter(bool),
    "Length": lengths,
    "date": st.dates(),
    "date | None": st.none() | st.dates(),
    "Hand | None": st.none() | st.sampled_from(Hand),
    "Structure": st.sampled_from(Structure),
    "Role": st.sampled_from(Role),
    "Grain": st.sampled_from(Grain),
    "Kind": st.sampled_from(Kind),
    "State": st.sampled_from(State),
    "DiaryKind": st.sampled_from(DiaryKind),
    "Decimal | None": st.none() | money,
    "tuple[float, float] | None": st.none() | st.tuples(numbers, numbers),
    "tuple[tuple[float, float], ...]": rings,
    "tuple[str, ...]": st.lists(words, max_size=3).map(tuple),
    "tuple[tuple[str, Length], ...]": measures,
    "tuple[Structure, ...]": st.lists(st.sampled_from(Structure), max_size=2).map(tuple),
}
"""What a field may hold, by its type: a field added later is drawn without a word here."""


def any_of(record: type[Any], **own: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    kept = [f for f in dataclasses.fields(record) if f.name not in ("id", "version")]
    drawn = {f.name: own[f.name] if f.name in own else DRAWN[str(f.type)] for f in kept}
    return st.builds(record, **drawn)


def several(record: st.SearchStrategy[Any]) -> st.SearchStrategy[tuple[Any, ...]]:
    return st.lists(record, max_size=2).map(tuple)


def blend(first: str, second: str, share: float) -> tuple[FibreShare, ...]:
    """In the order a label is read: most first, then by name."""
    if first == second:
        return (FibreShare(first, 100.0),)
    both = (FibreShare(first, share), FibreShare(second, 100 - share))
    return tuple(sorted(both, key=lambda one: (-one.percent, one.fibre)))


fibre = st.sampled_from([one.name for one in FIBRES])
flaw = st.builds(Flaw.cornered, rings, names) | st.builds(Flaw, numbers, numbers, numbers, names)
any_cloth = any_of(
    Cloth,
    name=names,
    width=widths,
    colour=st.from_regex(r"#[0-9a-f]{6}", fullmatch=True),
    fibres=st.just(()) | st.builds(blend, fibre, fibre, st.integers(1, 99).map(float)),
    flaws=several(flaw),
    outline=st.just(()) | rings,
)
any_pattern = any_of(
    Pattern,
    name=names,
    sizes=several(any_of(Size)),
    pieces=several(any_of(Piece, name=names)),
    charts=st.lists(any_of(ChartRow, width=widths), max_size=4).map(tuple),
    asks=several(any_of(Asks, fibres=st.lists(fibre, max_size=2).map(tuple))),
    notions=several(any_of(Notion)),
)


@st.composite
def any_stash(draw: st.DrawFn) -> dict[str, list[Any]]:
    """Records that name each other by their places in the lists."""
    found: dict[str, list[Any]] = {
        "cloths": draw(st.lists(any_cloth, min_size=1, max_size=3)),
        "patterns": draw(st.lists(any_pattern, min_size=1, max_size=2)),
        "people": draw(st.lists(any_of(Person, name=names), max_size=2)),
    }

    def place(of: str) -> st.SearchStrategy[int]:
        return st.integers(1, len(found[of]))

    person = st.none() | place("people") if found["people"] else st.none()
    make = any_of(
        Make, name=names, pattern_id=place("patterns"), person_id=person, muslin_for=st.none()
    )
    found["makes"] = draw(st.lists(make, min_size=1, max_size=3))
    promise = any_of(Promise, make_id=place("makes"), cloth_id=place("cloths"))
    found["promises"] = draw(st.lists(promise, max_size=3))
    entry = any_of(
        DiaryEntry, cloth_id=st.none() | place("cloths"), make_id=st.none() | place("makes")
    )
    found["diary"] = draw(st.lists(entry, max_size=3))
    return found


def keep(stash: Stash, found: dict[str, list[Any]]) -> None:
    with stash.write("fill") as session:
        cloths.insert_cloths(session, found["cloths"])
        for pattern in found["patterns"]:
            patterns.insert_pattern(session, pattern)
        for person in found["people"]:
            people.insert_person(session, person)
        kept = [makes.insert_make(session, make) for make in found["makes"]]
        if len(kept) > 1:
            makes.update_make(session, replace(kept[0], muslin_for=kept[-1].id))
        for promise in found["promises"]:
            promises.insert_promise(session, promise)
        for entry in found["diary"]:
            diary.add_entry(session, entry)


def everything(stash: Stash) -> tuple[Any, ...]:
    """All a person typed; numbers people see stay, versions and those of promises need not."""
    with stash.read() as session:
        lines = diary.entries(session)
    whole: Whole = read_whole(stash)
    held = sorted((replace(one, id=0, version=1) for one in whole.promises), key=repr)
    return (
        whole.cloths,
        {key: replace(one, version=1) for key, one in whole.makes.items()},
        whole.patterns,
        whole.people,
        held,
        [replace(line, id=0) for line in lines],
        stash.settings,
    )


@pytest.fixture(scope="module")
def two(
    ready: Callable[[str], Ready], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Stash, Stash]]:
    first, second = tmp_path_factory.mktemp("one"), tmp_path_factory.mktemp("two")
    with ready("empty").copy(first) as one, ready("empty").copy(second) as other:
        yield one, other


def begin_anew(stash: Stash) -> None:
    """Nothing in it, and numbers that count from 1."""
    names = ", ".join(table.name for table in metadata.sorted_tables)
    with stash.write("nothing") as session:
        connection = session.connection()
        if connection.dialect.name == "postgresql":
            connection.exec_driver_sql(f"TRUNCATE {names} RESTART IDENTITY")
            return
        empty(session)
        connection.exec_driver_sql("DELETE FROM sqlite_sequence")


@settings(
    max_examples=24 // len(BACKENDS),
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(found=any_stash())
def test_any_stash_comes_back_from_its_files(
    two: tuple[Stash, Stash], tmp_path_factory: pytest.TempPathFactory, found: dict[str, list[Any]]
) -> None:
    files = tmp_path_factory.mktemp("trip") / "files"
    for stash in two:
        begin_anew(stash)
    first, second = two
    keep(first, found)
    written = whole_export.export_all(first, files)
    assert written.doubts == ()
    import_all(second, files)
    assert everything(second) == everything(first)


def test_every_table_is_in_the_files_or_left_out_on_purpose() -> None:
    """A table added later has to be written too, or named here with a reason."""
    children = ("cloth_", "pattern_", "person_")
    typed = {name for name in metadata.tables if not name.startswith(children)}
    assert typed == {
        *("cloth", "pattern", "person", "make", "promise", "diary"),
        *("journal", "lay_result"),  # noted and worked out anew
    }


def test_settings_come_back(
    sample_stash: Stash, ready: Callable[[str], Ready], tmp_path: Path
) -> None:
    chosen = Settings(
        system=System.IMPERIAL, currency="GBP", shop_step_mm=50.0, budget=Decimal("99.50"), seed=7
    )
    sample_stash.keep_settings(chosen)
    whole_export.export_all(sample_stash, tmp_path / "files")
    with ready("empty").copy(tmp_path / "two") as second:
        import_all(second, tmp_path / "files")
        assert second.settings == chosen
        assert load_settings(tmp_path / "two" / "settings.toml") == chosen
        assert everything(second) == everything(sample_stash)


def test_the_sample_is_drawn(sample_stash: Stash, tmp_path: Path) -> None:
    """Its pieces were drawings and are drawings again, not rows of numbers."""
    whole_export.export_all(sample_stash, tmp_path / "files")
    drawings = list((tmp_path / "files" / "patterns").glob("*.svg"))
    assert len(drawings) == 8
    assert not any("[[piece]]" in f.read_text() for f in tmp_path.rglob("*.toml"))


def test_files_are_for_their_owner_only(sample_stash: Stash, tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        whole_export.export_all(sample_stash, tmp_path / "files")
    finally:
        os.umask(before)
    for path in (tmp_path / "files", *(tmp_path / "files").rglob("*")):
        assert stat.S_IMODE(path.stat().st_mode) == (0o700 if path.is_dir() else 0o600), path


def test_a_folder_with_something_in_it_is_left_alone(sample_stash: Stash, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("Dear aunt")
    with pytest.raises(RefusedError, match="holds something"):
        whole_export.export_all(sample_stash, tmp_path)
    assert (tmp_path / "letter.txt").read_text() == "Dear aunt"


def test_a_stash_that_is_not_empty_is_left_alone(sample_stash: Stash, tmp_path: Path) -> None:
    whole_export.export_all(sample_stash, tmp_path / "files")
    before = everything(sample_stash)
    with pytest.raises(RefusedError, match="not empty"):
        import_all(sample_stash, tmp_path / "files")
    assert everything(sample_stash) == before


def test_files_of_a_newer_program(sample_stash: Stash, tmp_path: Path) -> None:
    whole_export.export_all(sample_stash, tmp_path / "files")
    (tmp_path / "files" / "stash.toml").write_text("format = 99\n")
    with pytest.raises(BadInputError, match="newer version"):
        read_stash_folder(tmp_path / "files")


def test_a_folder_takes_the_place_of_the_stash(
    sample_stash: Stash, ready: Callable[[str], Ready], tmp_path: Path
) -> None:
    before = everything(sample_stash)
    whole_export.export_all(sample_stash, tmp_path / "files")
    with sample_stash.write("another") as session:
        cloths.insert_cloth(session, replace(next(iter(before[0].values())), name="another"))
    changed = everything(sample_stash)
    aside = restore(tmp_path / "files", home=sample_stash.home, url=address(sample_stash))
    assert aside is not None
    assert everything(sample_stash) == before
    with ready("empty").copy(tmp_path / "again") as again:
        import_all(again, aside)
        assert everything(again) == changed


@pytest.mark.parametrize("name", ["../../secret.svg", "..", "/etc/hostname", "C:x.svg", "a\0.svg"])
def test_drawings_outside_the_folder_are_never_read(
    sample_stash: Stash, tmp_path: Path, name: str
) -> None:
    whole_export.export_all(sample_stash, tmp_path / "files")
    (file,) = (tmp_path / "files" / "patterns").glob("deckwash*.toml")
    told = name.replace("\0", "\\u0000")
    lines = [
        f'drawings = ["{told}"]' if "drawings" in x else x for x in file.read_text().split("\n")
    ]
    file.write_text("\n".join(lines))
    with pytest.raises(BadInputError, match="not a file beside this one"):
        read_stash_folder(tmp_path / "files")


def test_a_link_that_leads_outside_is_never_followed(sample_stash: Stash, tmp_path: Path) -> None:
    whole_export.export_all(sample_stash, tmp_path / "files")
    (drawing,) = (tmp_path / "files" / "patterns").glob("deckwash*.svg")
    drawing.replace(tmp_path / "outside.svg")
    drawing.symlink_to(tmp_path / "outside.svg")
    with pytest.raises(BadInputError, match="not a file beside this one"):
        read_stash_folder(tmp_path / "files")
