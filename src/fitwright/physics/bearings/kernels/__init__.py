"""Compiled kernels of the bearings; imported inside functions only."""
