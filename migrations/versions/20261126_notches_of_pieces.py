"""Notches of pieces, kept with their outline."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "b7d1e0935a2c"
down_revision = "fd8c60ab8449"
branch_labels = None
depends_on = None

NONE = "[]"
"""No points, as JSON."""


def upgrade() -> None:
    with op.batch_alter_table("pattern_piece") as batch:
        batch.add_column(sa.Column("notches", sa.Text(), nullable=False, server_default=NONE))
    # New rows bring their own.
    with op.batch_alter_table("pattern_piece") as batch:
        batch.alter_column("notches", existing_type=sa.Text(), server_default=None)


def downgrade() -> None:
    with op.batch_alter_table("pattern_piece") as batch:
        batch.drop_column("notches")
