"""What a prediction of the oil system says, in SI; immutable, and without a number where nothing converged.

A `Band` is the 95 % band from what is not known of the sizes; its edges are None where a sample did not
converge, or where it is not worked out yet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from fitwright.assess.oil.sizes import KnownSize
from fitwright.quantity import FloatArray


@dataclass(frozen=True, slots=True)
class Band:
    """Where 95 % of the engines that agree with the readings lie; `best` is the best estimate.

    Any of them is None where it is not known: nothing that did not converge has a number.
    """

    best: float | None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class OilUsed:
    """The oil that a prediction is for [m2/s, kg/m3]; `basis` says what its viscosity rests on."""

    id: str
    title: str
    basis: str
    kinematic_viscosity_40: float
    kinematic_viscosity_100: float
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PressureCurve:
    """Pressure at the gauge [Pa] over the speed of the crank [rad/s], at one oil temperature [K]."""

    oil_temperature: float
    angular_speeds: tuple[float, ...]
    gauge_pressure: tuple[Band, ...]


@dataclass(frozen=True, slots=True)
class NodeState:
    """One node of the circuit at one operating point: its gauge pressure [Pa]."""

    id: str
    title: str
    gauge_pressure: Band
    is_gauge: bool = False


@dataclass(frozen=True, slots=True)
class PathState:
    """One path, pump stage or relief valve at one operating point.

    `flow` [m3/s] is of all `count` together, positive from `from_node` to `to_node`; `shut` is a valve
    or jet that does not open at this pressure.
    """

    id: str
    title: str
    kind: str
    group: str
    from_node: str
    to_node: str
    count: int
    flow: Band
    shut: bool = False


@dataclass(frozen=True, slots=True)
class GroupFlow:
    """What one group takes of the pump's flow [m3/s], and its share."""

    group: str
    flow: Band
    share: float | None


class FilmState(StrEnum):
    """What may be said of a film: a thickness, or why there is none."""

    FILM = "film"
    TOUCHING = "touching: no film predicted"
    NO_LOAD = "no load stated"
    NOT_CONVERGED = "not converged"


@dataclass(frozen=True, slots=True)
class BearingState:
    """One bearing at one operating point.

    `film_thickness` [m] stands only where `state` is `FILM`: the film is for the load stated, it is no
    load or speed limit. `feed_pressure` [Pa] is what arrives; `feed_margin` [Pa] the least pressure on
    the way to a big end (None elsewhere). `starved` where it draws all that the feed passes.
    """

    id: str
    title: str
    group: str
    state: FilmState
    film_thickness: Band
    eccentricity_ratio: float | None
    film_temperature: float | None
    friction_power: float | None
    flow: Band
    feed_pressure: Band
    feed_margin: float | None = None
    supplied_share: float | None = None
    starved: bool = False
    roughness: float | None = None


@dataclass(frozen=True, slots=True)
class FilmCourse:
    """Course over the cycle at even crank angles, all of one length.

    `crank_angle` [rad] begins with cylinder 1 firing; `film_thickness` [m]; `eccentricity_ratio` is the
    place of the journal in the frame of its bearing, `load` [N] the force on it, both across and along
    (towards the cylinder's head, or the small end).
    """

    crank_angle: FloatArray
    film_thickness: FloatArray
    eccentricity_ratio: FloatArray
    load: FloatArray


@dataclass(frozen=True, slots=True)
class CycleFilm:
    """One main or big end over the cycle at one operating point.

    `film_thickness` [m] is the smallest of the cycle, at `film_angle` of the crank [rad]; it stands only
    where `state` is `FILM`, as do peak film pressure [Pa] with its angle, mean flow out of the ends
    [m3/s] and power loss [W]. `cylinder` is that of a big end, and `after_firing` how far it is past its
    own firing top there. `peak_load` [N] is known in any case.
    """

    id: str
    title: str
    group: str
    state: FilmState
    peak_load: float
    roughness: float | None
    starved: bool = False
    film_thickness: float | None = None
    film_angle: float | None = None
    peak_pressure: float | None = None
    peak_pressure_angle: float | None = None
    mean_flow: float | None = None
    power_loss: float | None = None
    cylinder: int | None = None
    after_firing: float | None = None
    course: FilmCourse | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class CycleFilms:
    """Films over the cycle of all mains and big ends at one operating point; none where `problem` says why.

    `peak_gas_pressure` [Pa, absolute] is what was taken at this speed; None where loads come from a file.
    """

    title: str
    angular_speed: float
    oil_temperature: float
    cycle_angle: float
    bearings: tuple[CycleFilm, ...]
    peak_gas_pressure: float | None
    cautions: tuple[str, ...] = ()
    problem: str = ""


@dataclass(frozen=True, slots=True)
class PumpState:
    """The pump at one operating point: flows [m3/s], inlet pressure [Pa, gauge], torque [N m].

    `fill` is the share of its chambers that fills (1 below the filling limit).
    """

    id: str
    title: str
    displaced: float | None
    leakage: float | None
    delivered: float | None
    relieved: float | None
    reserve: float | None
    fill: float | None
    inlet_pressure: float | None
    drive_torque: float | None


@dataclass(frozen=True, slots=True)
class Cost:
    """What one size, group or fault costs of the pressure at the gauge [Pa] at one operating point.

    `per_step` is the exact derivative times `step` (0.01 mm of a clearance); `difference` is solved anew:
    from the middle of its limits to the size as it is (`against` says from what). Negative: it lowers
    the pressure. None where that way of asking makes no sense, or did not converge.
    """

    id: str
    title: str
    station: str | None
    per_step: float | None
    step: float | None
    difference: float | None
    against: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class PointState:
    """Everything at one operating point (speed of the crank [rad/s], oil temperature [K]).

    In a glance, points that are not looked at have the pressure at the gauge and nothing else.
    `converged` is False where no solution was found: then nothing in it has a number.
    """

    title: str
    angular_speed: float
    oil_temperature: float
    converged: bool
    gauge_pressure: Band
    nodes: tuple[NodeState, ...]
    paths: tuple[PathState, ...]
    budget: tuple[GroupFlow, ...]
    bearings: tuple[BearingState, ...]
    pumps: tuple[PumpState, ...]
    findings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class StopValue:
    """A value at which one stops or looks into it; `crossed` says where the prediction lies below it."""

    words: str
    who: str
    lowest_pressure: float | None
    angular_speed: float | None
    oil_temperature: float | None
    seconds: float | None
    crossed: str = ""


@dataclass(frozen=True, slots=True)
class Prediction:
    """The oil system of a build as its sizes are known now.

    `title` carries the engine's name only while no critical size is unmeasured; `unmeasured` are the
    sizes that enter as their limit band, `not_known` those without any: then nothing is predicted and
    `problem` says what to do. `falls` says where the pressure of hot oil falls as speed rises, and why.
    """

    title: str
    oil: OilUsed | None
    sizes: Mapping[str, KnownSize]
    unmeasured: tuple[KnownSize, ...]
    not_known: tuple[KnownSize, ...]
    curves: tuple[PressureCurve, ...]
    points: tuple[PointState, ...]
    costs: tuple[Cost, ...]
    faults: tuple[Cost, ...]
    stops: tuple[StopValue, ...]
    filling_limit: float | None
    cautions: tuple[str, ...]
    not_modelled: tuple[str, ...]
    problem: str = ""
    falls: tuple[str, ...] = ()
