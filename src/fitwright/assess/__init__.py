"""Use cases: a model and its record go into physics, verdicts come out with their provenance.

This is the only place where the three meet. An assessment names the entries, the sheet revision and
the versions of package and models that it used; equal inputs give equal digits. A seed, a clock or
a logger enters here or above, never below.
"""
