"""The questions of `new`, and the engine sheet that the answers make.

Questions are data; each answer is checked when it is given. The result is a model, which `formats`
writes as a file. A starter sheet states no limit that nobody gave: what was not answered is left
open and said to be open.
"""
