"""The record on a database: append in one transaction, indexed queries, paging, migrations.

It implements the `Record` protocol of `records` and knows nothing above it; only `wiring` opens a
store. There is one write: append. Every constraint has a name, every migration a test that starts
from the version before.
"""
