"""Compiled scalar functions of pumps and relief valves, for solvers that call them often.

Import them inside functions only: numba takes a second to load.
"""
