"""The first tables: cloths, patterns, people, makes, promises, diary, lays, journal."""

from __future__ import annotations

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "9fdbf3d05dfd"
down_revision = None
branch_labels = None
depends_on = None

TABLES = (
    "cloth",
    "cloth_fibre",
    "cloth_flaw",
    "pattern",
    "pattern_view",
    "pattern_size",
    "pattern_size_measure",
    "pattern_piece",
    "pattern_chart",
    "pattern_asks",
    "pattern_notion",
    "person",
    "person_measure",
    "make",
    "promise",
    "diary",
    "lay_result",
    "journal",
)
"""In the order they are made: a table comes after those it refers to."""


def upgrade() -> None:
    _make_cloths()
    _make_patterns()
    _make_pieces_and_charts()
    _make_asks_and_notions()
    _make_people_and_makes()
    _make_records()


def downgrade() -> None:
    for table in reversed(TABLES):
        op.drop_table(table)


def _make_cloths() -> None:
    op.create_table(
        "cloth",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.String(), "name"),
        *_must(sa.String(32), "structure"),
        *_must(sa.BigInteger(), "width", "selvedge", "bought", "left"),
        *_must(sa.Boolean(), "washed"),
        *_may(
            sa.Double(),
            "shrink_length",
            "shrink_width",
            "weight",
            "stretch_across",
            "stretch_along",
            "recovery",
        ),
        *_may(sa.SmallInteger(), "hand"),
        *_may(sa.Double(), "bending_length", "drape"),
        *_must(sa.Boolean(), "nap", "raised", "sheer"),
        *_must(sa.BigInteger(), "repeat_length", "repeat_width"),
        *_must(sa.String(), "colour", "colour_name", "print"),
        *_must(sa.Text(), "outline"),
        *_must(sa.Integer(), "loved"),
        *_may(sa.String(32), "price"),
        *_must(sa.Boolean(), "again"),
        *_must(sa.String(), "care", "place"),
        *_may(sa.Date(), "got"),
        *_must(sa.String(), "notes"),
        *_must(sa.Integer(), "version"),
        sa.PrimaryKeyConstraint("id", name="pk_cloth"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "cloth_fibre",
        *_child("cloth_fibre", "cloth"),
        *_must(sa.String(), "fibre"),
        *_must(sa.Double(), "percent"),
    )
    op.create_table(
        "cloth_flaw",
        *_child("cloth_flaw", "cloth"),
        *_must(sa.Double(), "x", "y", "radius"),
        *_must(sa.String(), "what"),
    )


def _make_patterns() -> None:
    op.create_table(
        "pattern",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.String(), "name"),
        *_must(sa.String(32), "kind"),
        *_must(sa.String(), "form", "kept_in"),
        *_must(sa.Double(), "fullness"),
        *_must(sa.Boolean(), "child", "tested"),
        *_must(sa.Integer(), "liked"),
        *_must(sa.String(), "notes"),
        *_must(sa.Integer(), "version"),
        sa.PrimaryKeyConstraint("id", name="pk_pattern"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "pattern_view",
        *_child("pattern_view", "pattern"),
        *_must(sa.String(), "name"),
    )
    op.create_table(
        "pattern_size",
        *_child("pattern_size", "pattern"),
        *_must(sa.String(), "label"),
    )
    op.create_table(
        "pattern_size_measure",
        *_key("pattern_id", "size_position", "position"),
        *_must(sa.Boolean(), "finished"),
        *_must(sa.String(), "name"),
        *_must(sa.BigInteger(), "length"),
        sa.PrimaryKeyConstraint(
            "pattern_id", "size_position", "position", name="pk_pattern_size_measure"
        ),
        sa.ForeignKeyConstraint(
            ["pattern_id", "size_position"],
            ["pattern_size.pattern_id", "pattern_size.position"],
            name="fk_pattern_size_measure_pattern_id_size_position_pattern_size",
            ondelete="CASCADE",
        ),
    )


def _make_pieces_and_charts() -> None:
    op.create_table(
        "pattern_piece",
        *_child("pattern_piece", "pattern"),
        *_must(sa.String(), "name"),
        *_must(sa.Text(), "outline"),
        *_must(sa.Integer(), "copies"),
        *_must(sa.Boolean(), "on_fold", "mirrored"),
        *_must(sa.String(32), "grain", "role"),
        *_must(sa.String(), "size"),
        *_must(sa.Text(), "views"),
    )
    op.create_table(
        "pattern_chart",
        *_child("pattern_chart", "pattern"),
        *_must(sa.String(32), "role"),
        *_must(sa.String(), "view", "size"),
        *_must(sa.BigInteger(), "width", "amount"),
        *_must(sa.Boolean(), "with_nap"),
    )


def _make_asks_and_notions() -> None:
    op.create_table(
        "pattern_asks",
        *_child("pattern_asks", "pattern"),
        *_must(sa.String(32), "role"),
        *_must(sa.Text(), "structures"),
        *_may(
            sa.Double(), "stretch_across", "stretch_along", "recovery", "weight_low", "weight_high"
        ),
        *_may(sa.SmallInteger(), "hand_low", "hand_high"),
        *_must(sa.Boolean(), "nap_allowed"),
    )
    op.create_table(
        "pattern_notion",
        *_child("pattern_notion", "pattern"),
        *_must(sa.String(), "name", "view", "size"),
        *_must(sa.Integer(), "amount"),
        *_must(sa.BigInteger(), "length"),
        *_must(sa.String(), "note"),
    )


def _make_people_and_makes() -> None:
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.String(), "name"),
        *_may(sa.Integer(), "child_age"),
        *_may(sa.Date(), "measured_on"),
        *_must(sa.String(), "notes"),
        *_must(sa.Integer(), "version"),
        sa.PrimaryKeyConstraint("id", name="pk_person"),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "person_measure",
        *_child("person_measure", "person"),
        *_must(sa.String(), "name"),
        *_must(sa.BigInteger(), "length"),
    )
    op.create_table(
        "make",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.String(), "name"),
        *_must(sa.Integer(), "pattern_id"),
        *_must(sa.String(), "view", "size"),
        *_may(sa.Integer(), "person_id"),
        *_must(sa.Boolean(), "muslin"),
        *_may(sa.Integer(), "muslin_for"),
        *_must(sa.String(32), "state"),
        *_must(sa.Integer(), "priority"),
        *_may(sa.Date(), "due"),
        *_must(sa.String(), "notes"),
        *_must(sa.Integer(), "version"),
        sa.PrimaryKeyConstraint("id", name="pk_make"),
        sa.ForeignKeyConstraint(["muslin_for"], ["make.id"], name="fk_make_muslin_for_make"),
        sa.ForeignKeyConstraint(["pattern_id"], ["pattern.id"], name="fk_make_pattern_id_pattern"),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name="fk_make_person_id_person"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_make_muslin_for", "make", ["muslin_for"])
    op.create_index("ix_make_pattern_id", "make", ["pattern_id"])
    op.create_index("ix_make_person_id", "make", ["person_id"])
    op.create_table(
        "promise",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.Integer(), "make_id"),
        *_must(sa.String(32), "role"),
        *_must(sa.Integer(), "cloth_id"),
        *_must(sa.BigInteger(), "length"),
        *_must(sa.Boolean(), "pinned", "cut"),
        *_must(sa.Integer(), "version"),
        sa.PrimaryKeyConstraint("id", name="pk_promise"),
        sa.ForeignKeyConstraint(["cloth_id"], ["cloth.id"], name="fk_promise_cloth_id_cloth"),
        sa.ForeignKeyConstraint(["make_id"], ["make.id"], name="fk_promise_make_id_make"),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_promise_cloth_id", "promise", ["cloth_id"])
    op.create_index("ix_promise_make_id", "promise", ["make_id"])


def _make_records() -> None:
    op.create_table(
        "diary",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.Date(), "day"),
        *_must(sa.String(32), "kind"),
        *_must(sa.String(), "text"),
        *_may(sa.Integer(), "cloth_id", "make_id"),
        sa.PrimaryKeyConstraint("id", name="pk_diary"),
        sa.ForeignKeyConstraint(
            ["cloth_id"], ["cloth.id"], name="fk_diary_cloth_id_cloth", ondelete="SET NULL"
        ),
        sa.ForeignKeyConstraint(
            ["make_id"], ["make.id"], name="fk_diary_make_id_make", ondelete="SET NULL"
        ),
        sqlite_autoincrement=True,
    )
    op.create_index("ix_diary_cloth_id", "diary", ["cloth_id"])
    op.create_index("ix_diary_day", "diary", ["day"])
    op.create_index("ix_diary_make_id", "diary", ["make_id"])
    op.create_table(
        "lay_result",
        sa.Column("key", sa.String(), nullable=False),
        *_must(sa.String(), "engine"),
        *_must(sa.Text(), "text"),
        sa.PrimaryKeyConstraint("key", name="pk_lay_result"),
    )
    op.create_table(
        "journal",
        sa.Column("id", sa.Integer(), nullable=False),
        *_must(sa.DateTime(timezone=True), "at"),
        *_must(sa.String(), "who", "what"),
        *_must(sa.Text(), "changes"),
        sa.PrimaryKeyConstraint("id", name="pk_journal"),
        sqlite_autoincrement=True,
    )


def _must(kind: sa.types.TypeEngine[Any], *names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, kind, nullable=False) for name in names]


def _may(kind: sa.types.TypeEngine[Any], *names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, kind, nullable=True) for name in names]


def _child(table: str, owner: str) -> list[sa.schema.SchemaItem]:
    """The key of a row that belongs to another and keeps its place; it goes with its owner."""
    owner_id = f"{owner}_id"
    return [
        *_key(owner_id, "position"),
        sa.PrimaryKeyConstraint(owner_id, "position", name=f"pk_{table}"),
        sa.ForeignKeyConstraint(
            [owner_id],
            [f"{owner}.id"],
            name=f"fk_{table}_{owner_id}_{owner}",
            ondelete="CASCADE",
        ),
    ]


def _key(*names: str) -> list[sa.Column[int]]:
    """The parts of a key that is made of several columns; none is counted up."""
    return [sa.Column(name, sa.Integer(), autoincrement=False, nullable=False) for name in names]
