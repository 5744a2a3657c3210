"""Readings as a person takes them: typed text and touched blades turned into entries.

`context` what is open on the bench (sheet, shop, build); `order` which place comes next;
`short_entries` what a text at a place means; `taking` one reading, with the questions that it raises
(`asking`, held against what `expected` says); `repeats` a place read again; `alike` and `moving` what
only a run of readings shows; `sittings` and `settings` what readings inherit; `withdrawing` undo;
`shelf`, `blade_sets` and `studies` the things of the shop as they are entered. `parts` what is fitted,
swapped and reworked, `statements` what is said without a gauge, `decisions` and `adopting` what a
person decides, `photos` pictures; `together` entries of one write, `entry_words` an entry in one line.
Nothing is stored here: what comes out is an entry, or a question to put to the person first.
"""
