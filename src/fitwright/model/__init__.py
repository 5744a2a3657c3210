"""What an engine IS: the immutable engine sheet, its parts, dimensions, fits and limits.

`sheet` holds everything together; `engine` the engine itself (duty, layout, directions);
`part`, `dimension`, `fit`, `limit`, `station`, `oil` one noun each; `circuit` the way of the oil
through pump, relief valve, passages and bearings; `braces` expands numbered families
(`main.{1..6}`); `chain` reads signed chains (`bore - 2 * wall - journal`); `checks` finds what is
wrong with a sheet as a whole (`problem`); `governing` says which limits a verdict rests on;
`plausible` where a reading is expected; `throws` where crank pins point; `slips` and `run_slips` ask
about values that look mistyped. Nothing here reads files or knows what has been measured.

Conventions: numbers in SI, as `Written` amounts that keep what was written; ids read like
`main.4.running_clearance`, counted from the nose; a position (`main.4.shell_upper`) is where a
part sits, a part is the physical thing that sits there.
"""
