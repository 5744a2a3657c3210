"""Quick sums: one computation on its own, without a build.

A sum has named inputs with units, one call into physics and a result with its working. Each is one
module, listed in a registry that the command line and the pages read, so that a new sum is a new
file and nothing else.
"""
