"""Rules of thumb of the trade: what a fit usually is, and on what that depends.

One constant per rule, named after its fit: `bottom_end`, `top_end`, `drives`, `oil_pump`. None of
them is a maker's limit; they never govern. `docs/theory/rules-of-thumb.md` lists every one, and a
test holds that list to this package.
"""
