"""Alembic's entry: runs the scripts on the connection handed over, else on the user's stash.

It must not set up logging: it runs inside another program.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import sqlalchemy as sa
from alembic import context
from sqlalchemy.types import TypeDecorator

from stash.paths import database_url
from stash.store.engine import migration_engine, read_url, writing
from stash.store.tables.every import metadata

if TYPE_CHECKING:
    from alembic.autogenerate.api import AutogenContext
    from sqlalchemy.engine import Connection


def render_plain(kind: str, item: object, autogen: AutogenContext) -> str | Literal[False]:
    """Write our own types as the database's: a migration must not import the program."""
    if kind == "type" and isinstance(item, sa.Enum):
        return f"sa.String({item.length})"
    if kind == "type" and isinstance(item, TypeDecorator):
        return f"sa.{item.impl_instance!r}"
    return False


def run(connection: Connection) -> None:
    context.configure(
        connection=connection,
        target_metadata=metadata,
        compare_type=True,
        compare_server_default=True,
        render_as_batch=True,
        render_item=render_plain,
    )
    with context.begin_transaction():
        context.run_migrations()


handed_over = context.config.attributes.get("connection")
if handed_over is not None:
    run(handed_over)
else:
    with writing(migration_engine(read_url(database_url()))).begin() as own:
        run(own)
