"""Assembly: the order of work as it stands, one step of it, one tightening group.

`show` the page with all steps, `step` and `group` the page of one; `opened` the build as it stands;
`steps`, `conditions`, `surroundings`, `timers`, `group_facts`, `fastener_lines`, `pictures` what the pages
say of it; `of_steps`, `of_groups` the forms, `tighten_form`, `tighten`, `effect` that of tightening;
`on_paper` sheets to print.
"""

from __future__ import annotations

from typing import Final

from starlette.routing import BaseRoute, Route

from fitwright.web.entering.opening import showing
from fitwright.web.entering.sending import looking, taking
from fitwright.web.pages.assembly import effect, on_paper, tighten
from fitwright.web.pages.assembly.group import OF_GROUP
from fitwright.web.pages.assembly.show import OF_ASSEMBLY
from fitwright.web.pages.assembly.step import OF_STEP

_BASE: Final = "/builds/{build}/assembly"
ROUTES: Final[list[BaseRoute]] = [
    Route(_BASE, showing(OF_ASSEMBLY), name="assembly"),
    Route(f"{_BASE}/do/{{do}}", taking(OF_ASSEMBLY), methods=["POST"], name="assembly entry"),
    Route(f"{_BASE}/do/{{do}}/effects", looking(OF_ASSEMBLY), name="assembly effects"),
    Route(f"{_BASE}/steps/{{step}}", showing(OF_STEP), name="step"),
    Route(f"{_BASE}/steps/{{step}}/do/{{do}}", taking(OF_STEP), methods=["POST"], name="step entry"),
    Route(f"{_BASE}/steps/{{step}}/do/{{do}}/effects", looking(OF_STEP), name="step effects"),
    Route(f"{_BASE}/groups/{{group}}", showing(OF_GROUP), name="group"),
    Route(f"{_BASE}/groups/{{group}}/tighten", tighten.take, methods=["POST"], name="tighten"),
    Route(f"{_BASE}/groups/{{group}}/effect", effect.show, name="effect of a torque"),
    Route(f"{_BASE}/groups/{{group}}/paper", on_paper.show_group, name="group on paper"),
    Route(f"{_BASE}/groups/{{group}}/do/{{do}}", taking(OF_GROUP), methods=["POST"], name="group entry"),
    Route(f"{_BASE}/groups/{{group}}/do/{{do}}/effects", looking(OF_GROUP), name="group effects"),
    Route(f"{_BASE}/paper", on_paper.show_order, name="order of work on paper"),
]
