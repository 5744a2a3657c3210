"""Fasteners that are tightened together, drawn as they sit: order, passes, what each has got.

`shown` what is said of each fastener, `standing` the same of a group as it stands, `places` where they
sit, `heads` how a head and its state are drawn, `pattern` the whole drawing, `standalone` the drawing as a
file of its own. `bolt_pattern.css` has its style.
"""

from __future__ import annotations

from fitwright.drawing.bolt_pattern.pattern import bolt_pattern
from fitwright.drawing.bolt_pattern.shown import FastenerShown
from fitwright.drawing.bolt_pattern.standalone import standalone
from fitwright.drawing.bolt_pattern.standing import shown_of

__all__ = ["FastenerShown", "bolt_pattern", "shown_of", "standalone"]
