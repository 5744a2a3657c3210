"""Make a new database, or bring an old one up to the newest schema.

Alembic takes most of a second to start, so it runs only where the file is behind.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Connection, Engine, inspect, select

from fitwright.store import schema
from fitwright.store.dialect import EXTRA_SCHEMA
from fitwright.store.errors import NewerRecordError, UnreadableRecordError

MIGRATIONS = Path(__file__).parent / "migrations"


def version_of(connection: Connection) -> str | None:
    """The schema version of a database; None for an empty one."""
    if not inspect(connection).has_table(schema.schema_version.name):
        return None
    return connection.execute(select(schema.schema_version.c.version_num)).scalar_one_or_none()


def bring_up(engine: Engine, database: Path) -> None:
    """Make the schema in an empty database, or run the migrations that are missing.

    Raises
    ------
    NewerRecordError
        If the database was written by a later version of this program.
    UnreadableRecordError
        If it is a database, but not a record.
    """
    with engine.begin() as connection:
        version = version_of(connection)
        if version is None:
            _make(connection, database)
            return
    if version > schema.VERSION:
        raise NewerRecordError(database, version)
    if version < schema.VERSION:
        upgrade(engine)


def upgrade(engine: Engine, to: str = "head") -> None:
    """Run migrations through Alembic's API, in one transaction."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, to)


def _make(connection: Connection, database: Path) -> None:
    tables = inspect(connection).get_table_names()
    if tables:
        reason = f"it is the database of something else (it holds {', '.join(tables[:3])})"
        raise UnreadableRecordError(database, reason)
    schema.metadata.create_all(connection)
    for statement in EXTRA_SCHEMA:
        connection.exec_driver_sql(statement)
    connection.execute(schema.schema_version.insert().values(version_num=schema.VERSION))
