"""Files and the model: engine sheets in TOML, imports and exports.

`write(read(x)) == x` for every sheet. A person's file is checked whole: all problems at once, each
with file, line, place, what is wrong and the accepted form. An older format version is raised by
one step per version, never by special cases in the reader.
"""
