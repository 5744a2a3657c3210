"""Preloads of a joint by torque, by angle and by stretch, with what they do to bolt and thread."""

from __future__ import annotations

from typing import Final

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.fastener_results import Preload, PreloadBy
from fitwright.assess.assembly.joint import Joint
from fitwright.data.fasteners import Lubricant
from fitwright.model.fastener import NOT_STATED, TighteningMethod
from fitwright.physics.fasteners.angle import preload_after_angle
from fitwright.physics.fasteners.band import (
    FrictionRange,
    PreloadBand,
    equal_preload_torque,
    preload_band,
)
from fitwright.physics.fasteners.friction import Friction
from fitwright.physics.fasteners.stress import Utilisation, preload_at_onset_of_yield, utilisation
from fitwright.physics.fasteners.stretch import preload_from_stretch
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.quantity import Metre, NewtonMetre, Radian

GOVERNS: Final = (
    "The maker's figure, lubricant and method govern. Not for fasteners tightened by angle or to yield."
)
STRETCH_GOVERNS: Final = (
    "A fastener warmer at one reading than at the other shows it as stretch: 10 K on 60 mm of steel are "
    "0.007 mm (0.28 thou). The maker's figure and method govern."
)
ANGLE_GOVERNS: Final = (
    "Estimated from snug torque, angle and the grip of the sheet, as if the parts fitted face to face. "
    "The maker's figure, lubricant and method govern."
)
SOUND_THREAD: Final = "Stripping is for a sound, clean, full-depth thread."
USUAL_FACE: Final = "The sheet states no face under the head: that of a usual hexagon head was taken."

_UNKNOWN: Final = Friction(0.12, 0.12)
"""What utilisation is reckoned with where stretch decides and nobody named a lubricant."""


def by_torque(joint: Joint, torque: NewtonMetre, lubricant: str | None) -> Preload | None:
    """The preload that a torque gives; None at no torque, or where thread or lubricant are not known."""
    known = joint.lubricant(lubricant)
    if joint.thread is None or joint.bearing is None or known is None or torque <= 0.0:
        return None
    band = preload_band(joint.thread, joint.bearing, known.friction, torque)
    between = _between("Calculated from friction you chose", band)
    face = (USUAL_FACE,) if joint.usual_face else ()
    return _preload(joint, band, PreloadBy.TORQUE, known, (f"{between} {GOVERNS}", *face))


def by_angle(joint: Joint, snug: NewtonMetre, angle: Radian, lubricant: str | None) -> Preload | None:
    """The preload after a snug torque and an angle; None where the grip is not known either."""
    known, resilience = joint.lubricant(lubricant), joint.resilience
    if joint.thread is None or joint.bearing is None or known is None or resilience is None or angle < 0.0:
        return None
    strength = joint.property_class
    onset = None
    if strength is not None:
        onset = preload_at_onset_of_yield(
            joint.thread,
            strength.strength.yield_strength,
            known.friction,
            shank_diameter=joint.shank_diameter,
        )
    start = preload_band(joint.thread, joint.bearing, known.friction, snug)
    found = preload_after_angle(joint.thread, start, angle, resilience, onset_of_yield=onset)
    words = (f"{_between('Estimated', found.band)} {ANGLE_GOVERNS}",)
    return _preload(joint, found.band, PreloadBy.TORQUE_AND_ANGLE, known, words, yields=found.yields)


def by_stretch(joint: Joint, stretch: Metre, lubricant: str | None) -> Preload | None:
    """The preload that a stretch shows; None without a grip, or where nothing stretched."""
    if joint.thread is None or joint.grip_resilience is None or stretch <= 0.0:
        return None
    band = preload_from_stretch(stretch, joint.grip_resilience)
    words = (f"{_between('Calculated from the stretch', band)} {STRETCH_GOVERNS}",)
    return _preload(joint, band, PreloadBy.STRETCH, joint.lubricant(lubricant), words)


def equal_torque(joint: Joint, torque: NewtonMetre, named: str | None, used: str | None) -> float | None:
    """The torque [N m] that gives with the lubricant used what a torque gives with the one it is for."""
    one, other = joint.lubricant(named), joint.lubricant(used)
    if joint.thread is None or joint.bearing is None or one is None or other is None:
        return None
    return equal_preload_torque(
        joint.thread,
        joint.bearing,
        torque,
        friction=one.friction.usual,
        other_friction=other.friction.usual,
    )


def why_no_preload(joint: Joint, lubricant: str | None) -> str | None:
    """Why no preload is computed for a group, in words; None where one is."""
    if joint.group.thread == NOT_STATED:
        return "no preload: the thread is not stated yet"
    if joint.thread is None:
        return f"no preload: the thread {joint.group.thread} is not known"
    stretched = any(
        each.stretch_low is not None or each.stretch_high is not None for each in joint.group.passes
    )
    if stretched and joint.grip_resilience is None:
        return "no preload: the sheet does not describe the grip that stretches"
    if not stretched and joint.lubricant(lubricant) is None:
        return "no preload: a torque without a named lubricant is half a specification"
    turned = any(each.angle is not None for each in joint.group.passes)
    if turned and joint.resilience is None:
        return "no preload: the sheet does not describe the grip and what it clamps"
    return None


def _between(begins: str, band: PreloadBand) -> str:
    low, high = figures.force(band.preload_low), figures.force(band.preload_high)
    return f"{begins}; preload between {low} and {high}."


def _preload(
    joint: Joint,
    band: PreloadBand,
    by: PreloadBy,
    lubricant: Lubricant | None,
    words: tuple[str, ...],
    *,
    yields: bool = False,
) -> Preload:
    friction = lubricant.friction if lubricant is not None else FrictionRange(_UNKNOWN)
    used = _utilisation(joint, friction, band.preload)
    most = _utilisation(joint, friction, band.preload_high)
    holds = joint.stripping
    meant = joint.group.method is TighteningMethod.YIELD
    return Preload(
        preload=band.preload,
        low=band.preload_low,
        high=band.preload_high,
        by=by,
        lubricant=lubricant.title if lubricant is not None else None,
        friction=(friction.usual.thread, friction.usual.head) if lubricant is not None else None,
        yield_utilisation=used.yield_utilisation if used is not None else None,
        proof_utilisation=used.proof_utilisation if used is not None else None,
        stripping_margin=holds.margin(band.preload_high) if holds is not None else None,
        yields=yields or meant or (most is not None and most.yield_utilisation >= 1.0),
        words=(*words, *((SOUND_THREAD,) if holds is not None else ())),
    )


def _utilisation(joint: Joint, friction: FrictionRange, preload: float) -> Utilisation | None:
    strength = joint.property_class
    if joint.thread is None or strength is None:
        return None
    try:
        return utilisation(
            joint.thread,
            strength.strength,
            friction.usual.thread,
            preload,
            shank_diameter=joint.shank_diameter,
        )
    except PhysicsError:
        return None
