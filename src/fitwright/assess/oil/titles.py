"""Nodes of the circuit in words, and where in the sheet's order of things they stand."""

from __future__ import annotations


def node_title(node: str) -> str:
    """A node as a person says it: `gallery.6` is "gallery 6", `pump.inlet` "pump inlet"."""
    return node.replace(".", " ").replace("_", " ")
