"""Rules of a lay: half-drop prints, flaws with corners, pieces that match or may lie off grain."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "6312c6115882"
down_revision = "9fdbf3d05dfd"
branch_labels = None
depends_on = None


def upgrade() -> None:
    _add("cloth", "half_drop", sa.Boolean(), sa.false(), own_ids=True)
    _add("cloth_flaw", "points", sa.Text(), "[]")
    _add("pattern_piece", "tolerance", sa.Integer(), "0")
    with op.batch_alter_table("pattern_piece") as batch:
        batch.add_column(sa.Column("match", sa.Text(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("pattern_piece") as batch:
        batch.drop_column("match")
        batch.drop_column("tolerance")
    with op.batch_alter_table("cloth_flaw") as batch:
        batch.drop_column("points")
    with op.batch_alter_table("cloth", table_kwargs={"sqlite_autoincrement": True}) as batch:
        batch.drop_column("half_drop")


def _add(
    table: str,
    name: str,
    kind: sa.types.TypeEngine[bool] | sa.types.TypeEngine[int] | sa.types.TypeEngine[str],
    usual: str | sa.ColumnElement[bool],
    *,
    own_ids: bool = False,
) -> None:
    """Add a column that is never empty: rows already kept get `usual`, new ones bring their own."""
    with op.batch_alter_table(table) as batch:
        batch.add_column(sa.Column(name, kind, nullable=False, server_default=usual))
    extra = {"sqlite_autoincrement": True} if own_ids else {}
    with op.batch_alter_table(table, table_kwargs=extra) as batch:
        batch.alter_column(name, existing_type=kind, server_default=None)
