"""The picture of the sum about a journal bearing."""

from __future__ import annotations

from fitwright.drawing.sum_pictures.bearing import JournalBearing, journal_bearing
from fitwright.web.pages.sums.seen import Seen


def bearing_picture(seen: Seen, label: str) -> str:
    """The journal in its bearing, and what its film does."""

    def found(key: str, dimension: str, before: str = "") -> str:
        value = seen.value(key)
        return "" if value is None else f"{before} {seen.words(value, dimension)}".lstrip()

    beside = (
        *seen.value("film").split(": "),
        found("attitude_angle", "angle", "attitude"),
        found("side_flow", "volume_flow", "side flow"),
        found("friction_torque", "torque", "friction"),
        found("maximum_film_pressure", "pressure", "largest pressure"),
    )
    return journal_bearing(
        JournalBearing(
            eccentricity_ratio=seen.value("eccentricity_ratio"),
            attitude_angle=seen.value("attitude_angle"),
            load=seen.words(seen.given["load"], "force"),
            speed=seen.words(seen.given["rotational_speed"], "angular_speed"),
            thinnest=found("minimum_film_thickness", "length", "thinnest"),
            beside=tuple(words for words in beside if words),
        ),
        label,
    )
