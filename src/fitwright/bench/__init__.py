"""Readings as a person takes them: typed text and touched blades turned into entries.

`context` what is open on the bench (sheet, shop, build); `taking` one reading, with the question
that it raises, if any; `order` which place comes next; `moving` readings that belong one place on.
Nothing is stored here: what comes out is an entry, or a question to put to the person first.
"""
