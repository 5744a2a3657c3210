"""Tables that come with the package (materials, threads, oils, bearing tables), read once and frozen.

Physics opens no file: it receives what is read here as arguments. Each row keeps the key of its
source, so that a working can say where a figure comes from. The tables themselves are the data
files beside this module.
"""
