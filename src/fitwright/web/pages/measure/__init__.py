"""Measure: readings taken station by station.

`stations` which station to go to; `here` where one is (build, station, order, sitting, place);
`place` what is shown at the place; `blades` the keys of a blade set; `run` the list of all places;
`sitting` the line that says who measures with what, `change_sitting` what changes it; `asked` questions
with their numbered answers; `parts` all of it together; `take` what a line or a key means: `reading`
takes readings, `mending` puts them right, `going` goes on without one, each as a `turn`; `echo` what a
line would be read as, before it is taken; `show` the page.
"""

from __future__ import annotations

from starlette.routing import BaseRoute, Route

from fitwright.web.pages.measure import change_sitting, echo, show, stations, take

ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/measure", stations.show, name="stations"),
    Route("/builds/{build}/measure/{station}", show.show, methods=["GET"], name="measure"),
    Route("/builds/{build}/measure/{station}", take.take, methods=["POST"], name="take"),
    Route("/builds/{build}/measure/{station}/echo", echo.echo, name="echo"),
    Route(
        "/builds/{build}/measure/{station}/sitting", change_sitting.change, methods=["POST"], name="sitting"
    ),
]
