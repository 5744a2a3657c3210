"""The page Oil: the oil system of a build, predicted from what was measured of it.

- `asked` what an address asks, `controls` how; `moving` sliders and what-ifs; `worked` the predictions
- `telling` figures as text, `figures` tables, `pictures` drawings, `parts` what answers and what follows
- `known` what is not measured; `start_readings`, `branches` readings of a first start; `rotors` the rotors
- `show` the page and its part that answers sliders; `entering`, `sending` its forms; `card` for print
- `cycle` films over the cycle
"""

from __future__ import annotations

from typing import Final

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.oil import card, cycle, rotors, sending, show

ROUTES: Final[list[BaseRoute]] = [
    Route("/builds/{build}/oil", show.show, name="oil"),
    Route("/builds/{build}/oil/answer", show.answer, name="oil answer"),
    Route("/builds/{build}/oil/rotors", rotors.turned, name="oil rotors"),
    Route("/builds/{build}/oil/card", card.show, name="oil card"),
    Route("/builds/{build}/oil/cycle", cycle.show, name="oil cycle"),
    Route("/builds/{build}/oil/readings", sending.take_reading, methods=["POST"], name="oil reading"),
    Route("/builds/{build}/oil/filled", sending.take_oil, methods=["POST"], name="oil filled"),
]
