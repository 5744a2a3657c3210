"""What was OBSERVED AND DONE: the kinds of entry, how they chain, and what follows from them.

`entry` the entry and its hash chain; `kinds` the body of every kind of entry; `protocol` what a
store must offer; `projection` replays entries into the state of a shop and of a build. Nothing
here computes a fit: an entry keeps what was typed and taken, never a computed result.
"""
