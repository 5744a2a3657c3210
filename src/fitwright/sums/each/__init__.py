"""The quick sums, one module each: a declaration named `SUM` and the one call into physics behind it."""
