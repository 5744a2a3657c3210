"""The pictures of the sums about fed crank bearings."""

from __future__ import annotations

from fitwright.drawing.sum_pictures.crank_oil import CrankFeed, GroovedBearing, crank_feed, grooved_bearing
from fitwright.web.pages.sums.seen import Seen


def groove_picture(seen: Seen, label: str) -> str:
    """A grooved shell over its journal."""
    given = seen.given
    return grooved_bearing(
        GroovedBearing(
            radial_clearance=given["radial_clearance"],
            clearance=f"clearance {seen.words(given['radial_clearance'])}",
            land=seen.words(given["land_length"]),
            journal=f"journal {seen.words(given['journal_diameter'])}",
            pressure=seen.words(given["gauge_pressure"], "pressure"),
            flow=f"{seen.words(seen.value('flow'), 'volume_flow')} out of both ends",
        ),
        label,
    )


def crank_picture(seen: Seen, label: str) -> str:
    """A drilled crank from main journal to crank pin."""
    given = seen.given
    margin, pressure = seen.value("margin"), seen.value("big_end_pressure")
    big_end = "to the big end" if pressure is None else seen.words(pressure, "pressure")
    return crank_feed(
        CrankFeed(
            share=2.0 * given["innermost_radius"] / given["main_journal_diameter"],
            starved=margin < 0.0,
            speed=seen.words(given["rotational_speed"], "angular_speed"),
            main=seen.words(given["gauge_pressure"], "pressure"),
            margin=f"{seen.words(margin, 'pressure')} left",
            big_end="the column breaks" if margin < 0.0 else big_end,
        ),
        label,
    )
