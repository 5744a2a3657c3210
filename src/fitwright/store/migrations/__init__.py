"""What Alembic runs; see `fitwright.store.migrate`."""
