"""Tables, indexes and triggers of the newest version, as they are made in a new database.

`migrations` must lead to the same schema; a test compares the two.
"""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
    UniqueConstraint,
)

VERSION = "0001"
"""The newest migration."""

metadata = MetaData()

entries = Table(
    "entries",
    metadata,
    Column("seq", Integer, nullable=False),
    Column("id", Text, nullable=False),
    Column("build", Text),
    Column("kind", Text, nullable=False),
    Column("kind_version", Integer, nullable=False),
    Column("person", Text),
    Column("device", Text),
    Column("committed_at", Text, nullable=False),
    Column("client_time", Text),
    Column("body", Text, nullable=False),
    Column("previous_hash", Text, nullable=False),
    Column("hash", Text, nullable=False),
    PrimaryKeyConstraint("seq", name="pk_entries"),
    UniqueConstraint("id", name="uq_entries_id"),
    CheckConstraint("seq > 0", name="ck_entries_seq"),
    CheckConstraint("length(id) = 32", name="ck_entries_id"),
    CheckConstraint("length(previous_hash) = 64 AND length(hash) = 64", name="ck_entries_hashes"),
    Index("ix_entries_build", "build", "seq"),
)

sheet_texts = Table(
    "sheet_texts",
    metadata,
    Column("digest", Text, nullable=False),
    Column("text", Text, nullable=False),
    PrimaryKeyConstraint("digest", name="pk_sheet_texts"),
    CheckConstraint("length(digest) = 64", name="ck_sheet_texts_digest"),
)

schema_version = Table(
    "alembic_version",
    metadata,
    Column("version_num", Text, nullable=False),
    PrimaryKeyConstraint("version_num", name="pk_alembic_version"),
)
