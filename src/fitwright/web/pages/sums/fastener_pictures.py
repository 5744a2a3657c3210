"""The pictures of the sums about fasteners."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.assess.results import Verdict
from fitwright.data.threads import thread_of
from fitwright.drawing.limit_picture import Bar, Bracket, LimitPicture
from fitwright.drawing.sum_pictures import fasteners
from fitwright.drawing.sum_pictures.sketch import Labelled
from fitwright.units.rounding import in_unit
from fitwright.web.pages.sums.seen import Seen

_FORCE_UNITS = {"mm": "kN", "inch": "lbf"}


def _tightened(seen: Seen, label: str) -> str:
    thread = thread_of(seen.given["thread"])
    outer = seen.given["bearing_diameter_outer"] or 1.46 * thread.nominal_diameter
    unit = _FORCE_UNITS[seen.family]
    yields = seen.value("preload") / seen.value("yield_utilisation")
    return fasteners.tightened(
        fasteners.Tightened(
            head_ratio=outer / thread.nominal_diameter,
            torque=f"{thread.designation}  {seen.words(seen.value('tightening_torque'), 'torque')}",
            shares=(
                _share(seen, "stretching_share", "stretches the fastener"),
                _share(seen, "thread_friction_share", "friction in the thread"),
                _share(seen, "head_friction_share", "friction under the head"),
            ),
            preload=LimitPicture(
                (Bracket("upper", _force(yields, unit)),),
                _ends(seen, "preload_low", "preload_high", unit),
                _force(seen.value("preload"), unit),
                Verdict.UNPROVEN,
            ),
            preload_words=f"preload in {unit}, 95 % band; the bracket is where it yields",
        ),
        label,
    )


def _share(seen: Seen, key: str, words: str) -> Labelled:
    return Labelled(seen.value(key), f"{seen.value(key):.0%} {words}")


def _equal(seen: Seen, label: str) -> str:
    unit = _FORCE_UNITS[seen.family]
    first = Bar(
        _ends(seen, "first_preload_low", "first_preload_high", unit),
        _force(seen.value("preload"), unit),
        Verdict.UNPROVEN,
    )
    picture = LimitPicture(
        (),
        _ends(seen, "preload_low", "preload_high", unit),
        _force(seen.value("preload"), unit),
        Verdict.UNPROVEN,
        before=first,
    )
    torques = [
        seen.words(each, "torque") for each in (seen.given["tightening_torque"], seen.value("equal_torque"))
    ]
    words = (
        f"above: {torques[0]}, {seen.given['lubricant'] or 'first friction'}",
        f"below: {torques[1]}, {seen.given['other_lubricant'] or 'other friction'}; preload in {unit}",
    )
    return fasteners.two_bands(picture, words, label)


def _stretched(seen: Seen, label: str) -> str:
    nominal = thread_of(seen.given["thread"]).nominal_diameter
    free = seen.given["thread_length"]
    return fasteners.stretched(
        fasteners.Stretched(
            sections=[
                (each["length"], min(each["diameter"] / nominal, 1.4), seen.words(each["length"]))
                for each in seen.given["sections"] or ()
            ],
            thread_length=free,
            thread_words=seen.words(free),
            stretch=f"stretch {seen.words(seen.value('stretch'))}",
            preload=f"preload {seen.words(seen.value('preload'), 'force')}",
        ),
        label,
    )


def _engaged(seen: Seen, label: str) -> str:
    thread = thread_of(seen.given["thread"])
    length, countersink = seen.given["engagement_length"], seen.given["countersink_depth"]
    countersink = 0.5 * thread.pitch if countersink is None else countersink
    return fasteners.engaged(
        fasteners.Engaged(
            engagement=max(length / thread.nominal_diameter, 0.1),
            countersink=min(countersink, 0.8 * length) / thread.nominal_diameter,
            threads=length / thread.pitch,
            words=(
                f"strips at {seen.words(seen.value('stripping_force'), 'force')}",
                f"bolt breaks at {seen.words(seen.value('bolt_breaking_force'), 'force')}",
                f"needed {_short(seen, seen.value('needed_engagement'))}",
            ),
            length=f"engaged {seen.words(length)}",
        ),
        label,
    )


def _wrench(seen: Seen, label: str) -> str:
    given = seen.given
    return fasteners.wrench(
        fasteners.Wrench(
            length=Labelled(given["wrench_length"], seen.words(given["wrench_length"])),
            extension=Labelled(
                given["extension_length"], f"extension {seen.words(given['extension_length'])}"
            ),
            angle=given["extension_angle"],
            setting=f"set {seen.words(seen.value('wrench_setting'), 'torque')}",
            torque=f"{seen.words(given['tightening_torque'], 'torque')} here",
        ),
        label,
    )


def _short(seen: Seen, size: float) -> str:
    """A size to three figures: more are not in what an engagement is known by."""
    unit = seen.unit(size)
    return f"{float(in_unit(size, unit)):.3g} {unit}"


def _force(value: float, unit: str) -> float:
    return float(in_unit(value, unit, "force"))


def _ends(seen: Seen, low: str, high: str, unit: str) -> tuple[float, float]:
    return _force(seen.value(low), unit), _force(seen.value(high), unit)


FASTENER_PICTURES: Final[Mapping[str, Callable[[Seen, str], str]]] = MappingProxyType(
    {
        "equal-preload": _equal,
        "stretch": _stretched,
        "stripping": _engaged,
        "tightening": _tightened,
        "wrench-extension": _wrench,
    }
)
"""How each of them is drawn."""
