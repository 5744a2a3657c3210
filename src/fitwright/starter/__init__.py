"""The questions of `new`, and the engine sheet that the answers make.

`questions` lists what is asked and turns words into `Answers` (`answers`); `plan` completes them;
`sheet` writes the text. Each subject of the sheet is a module that makes blocks (`blocks`) from the
plan: crank, bearings, rods, pistons, head, valves, drives, seals, pump. `rules` holds the rules of
thumb, `toml_text` and `surroundings` turn blocks into text, `family` writes keys with braces.

A starter sheet states no maker's limit. Its limits are rules of thumb: labelled so, saying on what
they depend, and never governing. A fit that the trade has no rule for stands without a limit.
"""
