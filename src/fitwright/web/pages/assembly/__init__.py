"""Assembly: the order of work as it stands, one step of it, one tightening group.

`show` the page with all steps, `step` and `group` the page of one; `opened` the build as it stands;
`steps`, `conditions`, `surroundings`, `timers`, `group_facts`, `fastener_lines`, `pictures` what the pages
say of it; `of_steps`, `of_groups` the forms, `tighten_form`, `tighten`, `effect` that of tightening;
`on_paper` sheets to print.
"""

from __future__ import annotations

from typing import Final

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.assembly import effect, group, on_paper, show, step, tighten

_BASE: Final = "/builds/{build}/assembly"
ROUTES: Final[list[BaseRoute]] = [
    Route(_BASE, show.show, name="assembly"),
    Route(f"{_BASE}/do/{{do}}", show.take, methods=["POST"], name="assembly entry"),
    Route(f"{_BASE}/do/{{do}}/effects", show.look, name="assembly effects"),
    Route(f"{_BASE}/steps/{{step}}", step.show, name="step"),
    Route(f"{_BASE}/steps/{{step}}/do/{{do}}", step.take, methods=["POST"], name="step entry"),
    Route(f"{_BASE}/steps/{{step}}/do/{{do}}/effects", step.look, name="step effects"),
    Route(f"{_BASE}/groups/{{group}}", group.show, name="group"),
    Route(f"{_BASE}/groups/{{group}}/tighten", tighten.take, methods=["POST"], name="tighten"),
    Route(f"{_BASE}/groups/{{group}}/effect", effect.show, name="effect of a torque"),
    Route(f"{_BASE}/groups/{{group}}/paper", on_paper.show_group, name="group on paper"),
    Route(f"{_BASE}/groups/{{group}}/do/{{do}}", group.take, methods=["POST"], name="group entry"),
    Route(f"{_BASE}/groups/{{group}}/do/{{do}}/effects", group.look, name="group effects"),
    Route(f"{_BASE}/paper", on_paper.show_order, name="order of work on paper"),
]
