"""A dossier held against the record that it was made from, on a machine that never saw the shop.

`chain` works the digests and the head out again, `contents` looks at what entries hold and name, `pages`
makes the pages anew and holds each against what is printed, `against` holds it against the shop's own record.
What can be said is that the document agrees with its record; never anything about an engine.
"""

from __future__ import annotations

from fitwright.dossier.verify.findings import DossierVerification, Finding
from fitwright.dossier.verify.whole import Tools, verify_dossier

__all__ = ["DossierVerification", "Finding", "Tools", "verify_dossier"]
