"""Makes the records of the example builds from their tables of readings.

`book` writes entries in the order of a day at the bench; `amounts` the texts that were typed;
`corrie_five` and `brackengill_eleven` hold the readings, station by station. `python -m
tools.examples` writes `src/fitwright/examples/*/record.jsonl` anew; the ids of entries come from
what they are about, so that the same tables always give the same file.
"""
