"""Migrations lead to the schema that a new database gets."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from alembic.config import Config
from alembic.script import ScriptDirectory

from fitwright.store import migrate, schema
from fitwright.store.dialect import writing_engine
from tests.support.record import reading


def schema_of(database):
    with closing(sqlite3.connect(database)) as connection:
        rows = connection.execute("SELECT type, name, sql FROM sqlite_schema WHERE name NOT LIKE '%alembic%'")
        return sorted((kind, name, " ".join((sql or "").split())) for kind, name, sql in rows)


def migrated(database):
    engine = writing_engine(database)
    migrate.upgrade(engine)
    engine.dispose()


def test_migrating_an_empty_database_gives_the_schema_of_a_new_one(tmp_path, record, folder):
    migrated(tmp_path / "old.db")
    assert schema_of(tmp_path / "old.db") == schema_of(folder / "record.db")


def test_the_newest_migration_is_the_version_that_new_databases_say(tmp_path):
    config = Config()
    config.set_main_option("script_location", str(migrate.MIGRATIONS))
    assert ScriptDirectory.from_config(config).get_current_head() == schema.VERSION


def test_a_database_that_is_behind_is_brought_up_at_opening(folder, opened, monkeypatch):
    folder.mkdir()
    migrated(folder / "record.db")
    with closing(sqlite3.connect(folder / "record.db", isolation_level=None)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0000'")
    asked = []
    monkeypatch.setattr(migrate, "upgrade", asked.append)
    opened()
    assert len(asked) == 1


def test_a_migrated_record_works(folder, opened):
    folder.mkdir()
    migrated(folder / "record.db")
    record = opened()
    assert record.append([reading()])[0].seq == 1


def test_every_constraint_has_a_name():
    unnamed = [
        (table.name, constraint)
        for table in schema.metadata.tables.values()
        for constraint in table.constraints
        if constraint.name is None
    ]
    assert unnamed == []


def test_migrations_are_shipped_inside_the_package():
    assert Path(schema.__file__).parent in (migrate.MIGRATIONS / "versions" / "record_0001.py").parents
