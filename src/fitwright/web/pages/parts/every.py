"""All forms of this page by name."""

from __future__ import annotations

from typing import Final

from fitwright.web.entering.kinds import FormKind
from fitwright.web.pages.parts.of_decisions import BACK, OF_DECISIONS
from fitwright.web.pages.parts.of_parts import OF_PARTS
from fitwright.web.pages.parts.of_sayings import OF_SAYINGS
from fitwright.web.pages.parts.pictures import PHOTO

OFFERED: Final[dict[str, tuple[FormKind, ...]]] = {
    "Parts": OF_PARTS,
    "Say": (*OF_SAYINGS, PHOTO),
    "Decide": OF_DECISIONS,
}
"""The forms as the page offers them, those that go together in a row."""
FORMS: Final[dict[str, FormKind]] = {
    each.name: each for each in (*(kind for row in OFFERED.values() for kind in row), BACK)
}
"""Every form, also the one that is opened only from a line of a list."""
