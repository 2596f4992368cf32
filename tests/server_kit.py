"""A database of its own for each test, on the PostgreSQL server of STASH_TEST_POSTGRES."""

from __future__ import annotations

import os
import uuid
from contextlib import contextmanager
from typing import TYPE_CHECKING

import sqlalchemy as sa

from stash.store.engine import read_url

if TYPE_CHECKING:
    from collections.abc import Iterator

SERVER = os.environ.get("STASH_TEST_POSTGRES", "")
BACKENDS = ("sqlite", "postgresql") if SERVER else ("sqlite",)


@contextmanager
def fresh_database(template: str = "template0") -> Iterator[str]:
    """The URL of a new database, a copy of the one called `template`; dropped at the end.

    Copying a filled database is quicker than filling one.
    """
    name = f"stash_{uuid.uuid4().hex}"
    _say(f'CREATE DATABASE "{name}" TEMPLATE "{template}"')
    try:
        yield read_url(SERVER).set(database=name).render_as_string(hide_password=False)
    finally:
        _say(f'DROP DATABASE "{name}" WITH (FORCE)')


def name_of(url: str) -> str:
    """The database in a URL, to be a template."""
    return read_url(url).database or ""


def _say(statement: str) -> None:
    engine = sa.create_engine(read_url(SERVER), poolclass=sa.NullPool, isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(sa.text(statement))
