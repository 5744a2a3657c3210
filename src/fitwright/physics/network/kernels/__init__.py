"""Compiled parts of the circuit: the laws of its elements, elimination, Newton's method, derivatives."""
