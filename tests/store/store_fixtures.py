"""Databases for the tests of the store, all built by the migrations.

Every test of `store` runs on SQLite, and on PostgreSQL where STASH_TEST_POSTGRES holds the
URL of a server the tests may make databases on.
"""

from __future__ import annotations

import shutil
from typing import TYPE_CHECKING

import pytest
from server_kit import BACKENDS, fresh_database

from stash.paths import sqlite_url
from stash.store.store import Store

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from ready_stash import Ready


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
        with fresh_database() as url:
            yield url


@pytest.fixture(params=BACKENDS)
def store_url(request: pytest.FixtureRequest) -> Iterator[str]:
    """The URL of an empty stash."""
    if request.param == "sqlite":
        yield sqlite_url(request.getfixturevalue("stash_file"))
    else:
        ready: Ready = request.getfixturevalue("ready_made")("empty", "postgresql")
        with fresh_database(ready.database) as url:
            yield url


@pytest.fixture
def store(store_url: str) -> Iterator[Store]:
    """An empty stash, open."""
    with Store.open(store_url) as opened:
        yield opened
