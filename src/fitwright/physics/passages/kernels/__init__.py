"""Compiled laws of passages: scalars in, flow and its derivative by the pressure drop out.

Every law is odd in the pressure drop and smooth to the first derivative, through zero as well, so that
Newton's method on a circuit of them does not chatter.
"""
