"""What was OBSERVED AND DONE: the kinds of entry, how they chain, and what follows from them.

`entry` an entry before and after it is written, `entry_data` one in a file; `kinds` the body of every
kind of entry; `registry` a body checked against its kind; `rules` what an entry may refer to;
`canonical` and `chain` the protected form and the hash chain; `ids`, `times`; `errors` what is refused;
`protocol` what a store must offer; `projection` replays entries into the state of a shop and of a build.
Nothing here computes a fit: an entry keeps what was typed and taken, never a computed result.
"""
