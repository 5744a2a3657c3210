"""The part with the place lit: where on a part a reading is taken, as a small engineer's drawing.

`drawing` puts it together. `spots` says where the places of a dimension lie and what they are called
(angles in degrees, 0 at the top, clockwise seen from the nose), `subject` what the sheet says of the
dimension, `choosing` which picture that gives. A picture is a function of the `pen`: `round_view`
with `round_outside` and `round_inside`, `shells`, `along_shaft`, `pistons`, `deck`, `rotors`,
`drives`, `valves`, `running_out`, `gauges`, and `plain` for all else. `shapes` makes path data and
hatching, `tools` the gauges that stand on the part. `standalone` gives a drawing its own style.

Thin ink lines; hatching for cut metal only; the lit place by thick arrows and in words. A read place
is a filled disc with a tick, an unread one an open dot, the lit one has a ring.
"""

from __future__ import annotations

from fitwright.drawing.part_place.drawing import part_place_drawing, place_name
from fitwright.drawing.part_place.errors import NoSuchPlaceError, PartPlaceError
from fitwright.drawing.part_place.standalone import standalone

__all__ = ["NoSuchPlaceError", "PartPlaceError", "part_place_drawing", "place_name", "standalone"]
