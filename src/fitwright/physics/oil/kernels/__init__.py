"""Compiled properties of an oil, from the flat vector that `oil_parameters` gives."""
