"""The engine section: a drawing of *this* engine from its sheet, to scale, with a touch mark per station.

`sizes` what the sheet states, `figure` it together with the throws and what follows from them.
`outline` and `ink` are pen and paper, in millimetres of the engine. `along` and `across` draw the two
views (`along_crank`, `across_head`, ... their subjects; `valves` what both need). `places` finds the
place of a station, `labels` its touch mark, `leaders` which mark stands where, `frame` the room for all
of it; `stated` and `measures` write the dimensions; `page` puts it together, `standalone` makes a file of
it. `state` is what callers hand in and get back, `stations` makes it from an assessment.

Conventions: millimetres, the crank's axis is the origin. Across: x to the right as seen from the
nose, y to the top. Along: x from the nose to the flywheel, y to the top. Angles in radians,
clockwise from the top as seen from the nose. A drawing is 780 units wide; a touch mark is at least 46
units high, so that it is 44 px or more on a page of 820 px.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import radians
from typing import Final

from fitwright.drawing.engine_section.figure import figure_of
from fitwright.drawing.engine_section.page import Page, View
from fitwright.drawing.engine_section.standalone import with_style
from fitwright.drawing.engine_section.state import Section, StationState, TouchMark
from fitwright.drawing.engine_section.stations import station_states
from fitwright.drawing.writing import TextBox
from fitwright.model.sheet import Sheet
from fitwright.quantity import Radian

__all__ = [
    "CRANK_ANGLE",
    "Section",
    "StationState",
    "TextBox",
    "TouchMark",
    "View",
    "engine_section",
    "section_drawing",
    "standalone_svg",
    "station_states",
]

CRANK_ANGLE: Final = radians(55.0)
"""How far the crank is drawn past the firing top of cylinder 1, unless told otherwise."""


def section_drawing(
    sheet: Sheet,
    states: Mapping[str, StationState],
    *,
    view: View = "along",
    hot: bool = False,
    hot_states: Mapping[str, StationState] | None = None,
    inverted: bool = False,
    crank_angle: Radian = CRANK_ANGLE,
) -> Section:
    """The section of an engine with what is touchable on it, as data too.

    Parameters
    ----------
    sheet : Sheet
        The engine sheet; a size that it does not state is drawn in usual proportion, and noted.
    states : mapping of str to StationState
        State by station id. A station without one stands there with nothing judged.
    view : {"along", "across"}
        Along the crank with the nose on the left, or across it, seen from the nose.
    hot : bool
        Whether marks say the hot states, which are estimates.
    hot_states : mapping of str to StationState, optional
        Hot state by station id.
    inverted : bool
        Whether the engine is drawn upside down, as it hangs on the stand; writing stays upright.
    crank_angle : float [rad]
        Crank angle past the firing top of cylinder 1, in the crank's own sense.

    Returns
    -------
    Section
        SVG text without style of its own (`section.css` has it), touch marks, writing and notes.
    """
    chosen = (hot_states or {}) if hot else states
    return Page(figure_of(sheet, crank_angle), view, hot, inverted).section(chosen)


def engine_section(
    sheet: Sheet,
    states: Mapping[str, StationState],
    *,
    view: View = "along",
    hot: bool = False,
    hot_states: Mapping[str, StationState] | None = None,
    inverted: bool = False,
    crank_angle: Radian = CRANK_ANGLE,
) -> str:
    """The section of an engine as SVG, for a page; see `section_drawing`."""
    return section_drawing(
        sheet, states, view=view, hot=hot, hot_states=hot_states, inverted=inverted, crank_angle=crank_angle
    ).svg


def standalone_svg(
    sheet: Sheet,
    states: Mapping[str, StationState],
    *,
    view: View = "along",
    hot: bool = False,
    hot_states: Mapping[str, StationState] | None = None,
    inverted: bool = False,
    crank_angle: Radian = CRANK_ANGLE,
) -> str:
    """The section of an engine as the text of an SVG file with its style inside; see `section_drawing`."""
    return with_style(
        engine_section(
            sheet,
            states,
            view=view,
            hot=hot,
            hot_states=hot_states,
            inverted=inverted,
            crank_angle=crank_angle,
        )
    )
