"""A pattern library: traced sizes, pictures, drafts that can be changed, advice on fibres."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "fd8c60ab8449"
down_revision = "315ae4734d9c"
branch_labels = None
depends_on = None

NONE = "[]"
"""No words, as JSON."""
ADDED: dict[str, tuple[tuple[str, type[Any], Any], ...]] = {
    "pattern": (("picture", sa.String, ""), ("traced", sa.Text, NONE)),
    "pattern_asks": (("fibres", sa.Text, NONE), ("avoid", sa.Text, NONE)),
    "pattern_chart": (("rounded", sa.Boolean, sa.false()),),
    "pattern_piece": (("family", sa.String, ""), ("typed", sa.Text, NONE)),
}
"""Columns that are never empty, with what rows already kept get."""


def upgrade() -> None:
    for table, columns in ADDED.items():
        with op.batch_alter_table(table, table_kwargs=_own_ids(table)) as batch:
            for name, kind, usual in columns:
                batch.add_column(sa.Column(name, kind(), nullable=False, server_default=usual))
        # New rows bring their own.
        with op.batch_alter_table(table, table_kwargs=_own_ids(table)) as batch:
            for name, kind, _ in columns:
                batch.alter_column(name, existing_type=kind(), server_default=None)
    with op.batch_alter_table("pattern_piece") as batch:
        batch.add_column(sa.Column("seam", sa.Double(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("pattern_piece") as batch:
        batch.drop_column("seam")
    for table, columns in reversed(ADDED.items()):
        with op.batch_alter_table(table, table_kwargs=_own_ids(table)) as batch:
            for name, _, _ in reversed(columns):
                batch.drop_column(name)


def _own_ids(table: str) -> dict[str, bool]:
    return {"sqlite_autoincrement": True} if table == "pattern" else {}
