"""The errors of this package: files that cannot be read, with every place and its mend."""

from __future__ import annotations


class FormatError(Exception):
    """Base of all errors about files."""
