"""Tables change; what people kept does not."""

from __future__ import annotations

import ast
import shutil
import sqlite3
import stat
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
import sqlalchemy as sa
from alembic import command
from alembic.script import ScriptDirectory
from store_records import fill

from stash.errors import StoreError
from stash.paths import migrations_dir, sqlite_url
from stash.store import cloths, diary, makes, migrate, patterns, people, promises
from stash.store.engine import migration_engine, read_url
from stash.store.store import Store
from stash.store.version import HEAD

pytest_plugins = ["store_fixtures"]

OLD = sorted((Path(__file__).parent / "old_dbs").glob("*.db"))

NEXT = f'''
import sqlalchemy as sa
from alembic import op

revision = "aaaaaaaaaaaa"
down_revision = "{HEAD}"


def upgrade():
    %s


def downgrade():
    pass
'''
WIDEN = """with op.batch_alter_table(
        "cloth", recreate="%s", table_kwargs={"sqlite_autoincrement": True}
    ) as batch:
        batch.add_column(sa.Column("shade", sa.String(), nullable=False, server_default="dark"))"""
FAIL = """op.create_table("half_done", sa.Column("id", sa.Integer()))
    op.execute("DELETE FROM diary")
    raise RuntimeError("the lights went out")"""
BREAK = """op.execute("DELETE FROM pattern")"""


@pytest.fixture
def next_version(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Pretend to be a later version of the program, whose one more migration does `what`."""

    def pretend(what: str) -> None:
        scripts = tmp_path / "migrations"
        shutil.copytree(migrations_dir(), scripts)
        (scripts / "versions" / "next.py").write_text(NEXT % what)
        monkeypatch.setattr("stash.store.migrate.migrations_dir", lambda: scripts)
        monkeypatch.setattr("stash.store.store.HEAD", "aaaaaaaaaaaa")

    return pretend


def row_counts(url: str) -> dict[str, int]:
    """How many rows every table of a database has."""
    engine = sa.create_engine(read_url(url), poolclass=sa.NullPool)
    with engine.connect() as connection:
        names = sa.inspect(connection).get_table_names()
        return {
            name: connection.scalar(sa.select(sa.func.count()).select_from(sa.table(name))) or 0
            for name in names
        }


def fill_at(url: str) -> dict[str, int]:
    with Store.open(url) as store, store.write("fill") as session:
        fill(session)
    return row_counts(url)


def revision_at(url: str) -> str:
    with migration_engine(read_url(url)).connect() as connection:
        return str(connection.scalar(sa.text("SELECT version_num FROM alembic_version")))


def test_one_head_and_it_is_the_one_the_program_knows() -> None:
    assert ScriptDirectory.from_config(migrate.config()).get_heads() == [HEAD]


def test_every_revision_has_a_frozen_stash() -> None:
    scripts = ScriptDirectory.from_config(migrate.config()).walk_revisions()
    assert {file.stem for file in OLD} == {script.revision for script in scripts}


def test_migrations_import_nothing_of_the_program() -> None:
    scripts = list((migrations_dir() / "versions").glob("*.py"))
    assert scripts
    for script in scripts:
        for node in ast.walk(ast.parse(script.read_text())):
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            else:
                continue
            assert not any(name.partition(".")[0] == "stash" for name in names), script


def test_tables_and_migrations_agree(store_url: str) -> None:
    with migration_engine(read_url(store_url)).connect() as connection:
        command.check(migrate.config(connection))


@pytest.mark.parametrize("frozen", OLD, ids=lambda file: file.stem)
def test_a_frozen_stash_opens_with_every_row(frozen: Path, tmp_path: Path) -> None:
    file = tmp_path / "stash.db"
    shutil.copyfile(frozen, file)
    url = sqlite_url(file)
    before = row_counts(url)
    assert all(before.values()), "a frozen stash has rows in every table"
    with Store.open(url, backups=tmp_path / "backups") as store, store.read() as session:
        read = (
            cloths.all_cloths(session),
            patterns.all_patterns(session),
            people.all_people(session),
            makes.all_makes(session),
            promises.all_promises(session),
            diary.entries(session),
        )
    assert [len(kept) for kept in read] == [2, 1, 1, 2, 1, 1]
    after = row_counts(url)
    assert {name: after[name] for name in before} == before
    assert revision_at(url) == HEAD
    with migration_engine(read_url(url)).connect() as connection:
        command.check(migrate.config(connection))


def test_what_nobody_could_say_before_is_read_as_not_there(tmp_path: Path) -> None:
    file = tmp_path / "stash.db"
    shutil.copyfile(Path(__file__).parent / "old_dbs" / "9fdbf3d05dfd.db", file)
    with Store.open(sqlite_url(file), backups=tmp_path / "backups") as store, store.read() as s:
        cloth = cloths.find_cloth(s, "Rust needlecord")
        (trousers,) = patterns.all_patterns(s)
    assert not cloth.half_drop
    assert [(flaw.what, flaw.points) for flaw in cloth.flaws] == [("moth hole", ()), ("flaw", ())]
    kept = [(p.tolerance, p.match, p.notches) for p in trousers.pieces]
    assert kept == [(0, None, ()), (0, None, ())]


def test_up_down_and_up_again_is_the_same(blank_url: str) -> None:
    Store.open(blank_url).close()
    url = read_url(blank_url)
    first = shape(blank_url)
    assert {"cloth", "pattern_size_measure", "journal"} <= first.keys()
    migrate.downgrade(url, "base")
    assert shape(blank_url).keys() == {"alembic_version"}
    migrate.upgrade(url)
    assert shape(blank_url) == first


def shape(url: str) -> dict[str, Any]:
    """Everything the database tells about its tables."""
    with migration_engine(read_url(url)).connect() as connection:
        look = sa.inspect(connection)
        return {
            name: (
                [(c["name"], str(c["type"]), c["nullable"]) for c in look.get_columns(name)],
                look.get_pk_constraint(name),
                sorted(look.get_foreign_keys(name), key=repr),
                sorted(look.get_indexes(name), key=repr),
            )
            for name in look.get_table_names()
        }


@pytest.mark.parametrize("recreate", ["auto", "always"])
def test_children_survive_the_rebuilding_of_their_parents_table(
    store_url: str, next_version: Any, tmp_path: Path, recreate: str
) -> None:
    """SQLite rebuilds a table by copying and dropping it; children must not go with it."""
    if not store_url.startswith("sqlite"):
        recreate = "auto"  # only SQLite needs to rebuild; a server has tables that depend on it
    before = fill_at(store_url)
    assert before["cloth_fibre"] > 0
    next_version(WIDEN % recreate)
    Store.open(store_url, backups=tmp_path / "backups").close()
    assert row_counts(store_url) == before
    assert revision_at(store_url) == "aaaaaaaaaaaa"
    with migration_engine(read_url(store_url)).connect() as connection:
        shades = connection.execute(sa.text("SELECT DISTINCT shade FROM cloth")).scalars().all()
    assert shades == ["dark"]


def test_an_interrupted_migration_changes_nothing(
    store_url: str, next_version: Any, tmp_path: Path
) -> None:
    before = fill_at(store_url)
    next_version(FAIL)
    with pytest.raises(RuntimeError, match="lights went out"):
        Store.open(store_url, backups=tmp_path / "backups")
    assert row_counts(store_url) == before
    assert revision_at(store_url) == HEAD


def test_a_migration_that_breaks_references_changes_nothing(
    stash_file: Path, next_version: Any, tmp_path: Path
) -> None:
    url = sqlite_url(stash_file)
    before = fill_at(url)
    next_version(BREAK)
    with pytest.raises(StoreError, match=r"rows in make, pattern_asks, .* Nothing was changed"):
        Store.open(url, backups=tmp_path / "backups")
    assert row_counts(url) == before
    assert revision_at(url) == HEAD


def test_a_copy_is_kept_before_tables_change(
    stash_file: Path, next_version: Any, tmp_path: Path
) -> None:
    url = sqlite_url(stash_file)
    before = fill_at(url)
    next_version(WIDEN % "always")
    backups = tmp_path / "kept" / "backups"
    with closing(sqlite3.connect(stash_file)) as someone_else:
        someone_else.execute("PRAGMA wal_autocheckpoint=0")
        someone_else.execute("INSERT INTO diary (day, kind, text) VALUES ('2024-01-01','note','')")
        someone_else.commit()  # still in the side file only
        Store.open(url, backups=backups).close()
    (copy,) = backups.iterdir()
    assert copy.name.startswith(f"stash-{HEAD}-20")
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    assert stat.S_IMODE(backups.stat().st_mode) == 0o700
    assert row_counts(sqlite_url(copy)) == before | {"diary": before["diary"] + 1}
    assert revision_at(sqlite_url(copy)) == HEAD
