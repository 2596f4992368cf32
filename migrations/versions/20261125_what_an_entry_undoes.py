"""An entry of the journal may undo another one."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "315ae4734d9c"
down_revision = "6312c6115882"
branch_labels = None
depends_on = None

KEEP_IDS = {"sqlite_autoincrement": True}


def upgrade() -> None:
    with op.batch_alter_table("journal", table_kwargs=KEEP_IDS) as batch:
        batch.add_column(sa.Column("undoes", sa.Integer(), nullable=True))
        batch.create_foreign_key("fk_journal_undoes_journal", "journal", ["undoes"], ["id"])
        batch.create_index("ix_journal_undoes", ["undoes"])


def downgrade() -> None:
    with op.batch_alter_table("journal", table_kwargs=KEEP_IDS) as batch:
        batch.drop_index("ix_journal_undoes")
        batch.drop_constraint("fk_journal_undoes_journal", type_="foreignkey")
        batch.drop_column("undoes")
