"""The handover document: a tree made from the record, printed as PDF, with data that anyone can verify.

`tree` is what a document is made of, `known` what it is made from, `sections` its chapters, `document` the
whole; `printing` turns it into pages, `data` is what travels with them, `verify` holds one against the other.
"""
