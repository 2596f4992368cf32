"""Databases for the tests of the store, all built by the migrations.

Every test of `store` runs on SQLite, and on PostgreSQL where STASH_TEST_POSTGRES holds the
URL of a server the tests may make schemas on.
"""

from __future__ import annotations

import os
import shutil
import uuid
from contextlib import contextmanager
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa

from stash.paths import sqlite_url
from stash.store.engine import read_url
from stash.store.store import Store

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

SERVER = os.environ.get("STASH_TEST_POSTGRES", "")
BACKENDS = ("sqlite", "postgresql") if SERVER else ("sqlite",)


@pytest.fixture(scope="session")
def template_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty stash, made once; closing it has emptied its side files."""
    file = tmp_path_factory.mktemp("template") / "stash.db"
    Store.open(sqlite_url(file)).close()
    return file


@pytest.fixture
def stash_file(template_file: Path, tmp_path: Path) -> Path:
    """A copy of the empty stash."""
    file = tmp_path / "stash.db"
    shutil.copyfile(template_file, file)
    return file


@pytest.fixture(params=BACKENDS)
def blank_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The URL of a database without any table."""
    if request.param == "sqlite":
        yield sqlite_url(tmp_path / "blank" / "stash.db")
    else:
        with fresh_schema() as url:
            yield url


@pytest.fixture(params=BACKENDS)
def store_url(request: pytest.FixtureRequest) -> Iterator[str]:
    """The URL of an empty stash."""
    if request.param == "sqlite":
        yield sqlite_url(request.getfixturevalue("stash_file"))
    else:
        with fresh_schema() as url:
            Store.open(url).close()
            yield url


@pytest.fixture
def store(store_url: str) -> Iterator[Store]:
    """An empty stash, open."""
    with Store.open(store_url) as opened:
        yield opened


@contextmanager
def fresh_schema() -> Iterator[str]:
    """The URL of an empty schema on the server, dropped at the end."""
    name = f"stash_{uuid.uuid4().hex}"
    engine = sa.create_engine(read_url(SERVER), poolclass=sa.NullPool)
    with engine.begin() as connection:
        connection.execute(sa.schema.CreateSchema(name))
    try:
        url = read_url(SERVER).update_query_dict({"options": f"-csearch_path={name}"})
        yield url.render_as_string(hide_password=False)
    finally:
        with engine.begin() as connection:
            connection.execute(sa.schema.DropSchema(name, cascade=True))
