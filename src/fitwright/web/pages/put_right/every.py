"""All forms of this page by name."""

from __future__ import annotations

from typing import Final

from fitwright.web.entering.kinds import FormKind
from fitwright.web.pages.parts.of_decisions import BACK
from fitwright.web.pages.put_right.of_permissions import CONCESSION, PERMIT
from fitwright.web.pages.put_right.of_reworks import CHECKED, DONE, ORDER

OFFERED: Final[dict[str, tuple[FormKind, ...]]] = {"Mend": (ORDER,), "Accept": (CONCESSION, PERMIT)}
"""The forms as the page offers them."""
FORMS: Final[dict[str, FormKind]] = {
    each.name: each for each in (ORDER, CONCESSION, PERMIT, DONE, CHECKED, BACK)
}
"""Every form, also those that are opened only from an order or a list."""
