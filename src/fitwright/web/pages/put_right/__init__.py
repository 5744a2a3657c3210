"""Put right: what is outside or unproven, and what was decided about it.

`show` the page: `outside` what is outside and what can be done about it, `unproven` what only wants
reading, `permissions` concessions and deviation permits with whether they are in force, `orders` rework
orders; `order` the page of one order, `printed` the order for the machinist. `every` all forms by name:
`of_permissions`, `of_reworks`, with `ranges` the range that a concession would accept.
"""

from __future__ import annotations

from starlette.routing import BaseRoute, Route

from fitwright.web.entering.opening import showing
from fitwright.web.entering.sending import looking, taking
from fitwright.web.pages.put_right import order, printed
from fitwright.web.pages.put_right.show import OF_PUT_RIGHT

ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/put-right", showing(OF_PUT_RIGHT), name="put right"),
    Route("/builds/{build}/put-right/orders/{order}", order.show, name="rework order"),
    Route("/builds/{build}/put-right/orders/{order}/print", printed.show, name="rework order printed"),
    Route("/builds/{build}/put-right/{do}", taking(OF_PUT_RIGHT), methods=["POST"], name="put right, enter"),
    Route("/builds/{build}/put-right/{do}/effects", looking(OF_PUT_RIGHT), name="put right, what follows"),
]
