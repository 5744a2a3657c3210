"""The record: entries, sheet texts, and the triggers that keep both as written.

Revision ID: 0001
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

INDEXES_AND_TRIGGERS = (
    """
    CREATE INDEX ix_entries_withdraws ON entries (json_extract(body, '$.entry')) WHERE kind = 'withdrawal'
    """,
    """
    CREATE INDEX ix_entries_corrects ON entries (json_extract(body, '$.supersedes'))
    WHERE json_extract(body, '$.supersedes') IS NOT NULL
    """,
    """
    CREATE TRIGGER tr_entries_no_update BEFORE UPDATE ON entries
    BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END
    """,
    """
    CREATE TRIGGER tr_entries_no_delete BEFORE DELETE ON entries
    BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END
    """,
    """
    CREATE TRIGGER tr_entries_in_order BEFORE INSERT ON entries
    WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM entries)
    OR EXISTS (SELECT 1 FROM entries WHERE id = NEW.id)
    BEGIN SELECT RAISE(ABORT, 'entries are only added at the end'); END
    """,
    """
    CREATE TRIGGER tr_sheet_texts_no_update BEFORE UPDATE ON sheet_texts
    BEGIN SELECT RAISE(ABORT, 'sheet texts are never changed'); END
    """,
    """
    CREATE TRIGGER tr_sheet_texts_no_delete BEFORE DELETE ON sheet_texts
    BEGIN SELECT RAISE(ABORT, 'sheet texts are never deleted'); END
    """,
    """
    CREATE TRIGGER tr_sheet_texts_once BEFORE INSERT ON sheet_texts
    WHEN EXISTS (SELECT 1 FROM sheet_texts WHERE digest = NEW.digest)
    BEGIN SELECT RAISE(ABORT, 'a sheet text is kept once'); END
    """,
)


def upgrade() -> None:
    """Make everything."""
    op.create_table(
        "entries",
        sa.Column("seq", sa.Integer, nullable=False),
        sa.Column("id", sa.Text, nullable=False),
        sa.Column("build", sa.Text),
        sa.Column("kind", sa.Text, nullable=False),
        sa.Column("kind_version", sa.Integer, nullable=False),
        sa.Column("person", sa.Text),
        sa.Column("device", sa.Text),
        sa.Column("committed_at", sa.Text, nullable=False),
        sa.Column("client_time", sa.Text),
        sa.Column("body", sa.Text, nullable=False),
        sa.Column("previous_hash", sa.Text, nullable=False),
        sa.Column("hash", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_entries"),
        sa.UniqueConstraint("id", name="uq_entries_id"),
        sa.CheckConstraint("seq > 0", name="ck_entries_seq"),
        sa.CheckConstraint("length(id) = 32", name="ck_entries_id"),
        sa.CheckConstraint("length(previous_hash) = 64 AND length(hash) = 64", name="ck_entries_hashes"),
    )
    op.create_index("ix_entries_build", "entries", ["build", "seq"])
    op.create_table(
        "sheet_texts",
        sa.Column("digest", sa.Text, nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("digest", name="pk_sheet_texts"),
        sa.CheckConstraint("length(digest) = 64", name="ck_sheet_texts_digest"),
    )
    for statement in INDEXES_AND_TRIGGERS:
        op.execute(statement)
