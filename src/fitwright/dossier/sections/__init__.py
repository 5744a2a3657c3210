"""The chapters of a dossier, one module each: a function from a `Teller` to a `Section`, or to None."""
