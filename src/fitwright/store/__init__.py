"""The record on a database: append in one transaction, indexed queries, paging, migrations.

It implements the `Record` protocol of `records` and knows nothing above it; only `wiring` opens a
store. There is one write: append. Every constraint has a name, every migration a test that starts
from the version before.

`record` the record itself and `open_record`; `writer` the one writing connection; `schema` tables,
indexes, triggers; `dialect` all that is peculiar to SQLite (a second database gets a second such
module); `migrate` and `migrations` bring old files up; `places` refuses folders that are no place
for a database; `headfile` the head kept in a second place; `photos` pictures as files; `backup` and
`verify`. A record is a folder: `record.db`, `photos/`, `head.json`.
"""
