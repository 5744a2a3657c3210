"""What an assessment says: verdicts with their bounds, routes, hot states and unused readings.

Everything is immutable and in SI. Words follow the vocabulary: within, outside, unproven (always
with a reason) and not measured.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from fitwright.model.limit import SourceKind
from fitwright.physics.fits.centring import Vector
from fitwright.physics.fits.centring_move import Move
from fitwright.physics.fits.closure import Closure
from fitwright.physics.fits.joint_face import JointMove
from fitwright.physics.metrology.form import Form
from fitwright.physics.metrology.result import ChainResult, Contradiction
from fitwright.physics.metrology.sources import Budget


class Verdict(StrEnum):
    """The four answers to "does it hold its limits?"."""

    WITHIN = "within"
    OUTSIDE = "outside"
    UNPROVEN = "unproven"
    NOT_MEASURED = "not-measured"


class Reason(StrEnum):
    """Why something is unproven."""

    TOO_COARSE = "too coarse"
    AT_THE_LIMIT = "at the limit"
    CONTRADICTORY = "contradictory"
    TWO_DEVICES = "two devices"
    CHANGED_SINCE = "changed since"
    NO_LIMIT_ADOPTED = "no limit adopted"
    OPEN_ON_ONE_SIDE = "nothing bounds it"
    INCOMPLETE = "incomplete"
    ROUTE_NOT_READ = "governing route not read"
    NOT_COMPUTED = "cannot be computed"


class State(StrEnum):
    """Which readings count: those before any rework of what they measured, or the latest."""

    AS_RECEIVED = "as-received"
    CURRENT = "current"


@dataclass(frozen=True, slots=True)
class Unused:
    """A reading that is kept but not used, and why; `by_choice` where a person may choose it again."""

    entry: str
    dimension: str
    place: str
    why: str
    changed: bool = False
    by_choice: bool = False


@dataclass(frozen=True, slots=True)
class BoundVerdict:
    """One bound of one limit: what it asks, who says so, and what the readings prove."""

    side: str
    limit: float
    written: str
    governs: bool
    source: str
    source_kind: str
    place_in_source: str | None
    applies_to: str
    temperature_case: str | None
    probability: float | None
    verdict: Verdict
    reason: Reason | None
    value: float | None
    standard_uncertainty: float | None
    acceptance_limit: float | None
    places: tuple[str, ...] = ()
    adopted_by: str | None = None


@dataclass(frozen=True, slots=True)
class RouteVerdict:
    """What one route says of a fit: its chain with what is missing, and its result if complete."""

    name: str
    governs: bool
    result: ChainResult | None
    missing: tuple[str, ...]
    stated: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class RouteComparison:
    """Two routes held against each other within the uncertainty of their difference."""

    difference: float
    standard_uncertainty: float
    agree: bool
    words: str


@dataclass(frozen=True, slots=True)
class HotState:
    """A fit at a temperature case: estimated, and judged only where the source gives a hot limit."""

    case: str
    title: str
    value: float
    standard_uncertainty: float
    interval: tuple[float | None, float | None]
    change: float
    judged: bool = False


@dataclass(frozen=True, slots=True)
class Grip:
    """What an interference gives in one state: what is left of it [m], pressure and stresses [Pa]."""

    case: str
    title: str
    interference: float
    standard_uncertainty: float
    pressure: float
    hub_hoop_stress: float
    hub_equivalent_stress: float
    shaft_hoop_stress: float
    holding_force: float | None


@dataclass(frozen=True, slots=True)
class CentringFound:
    """Where a housing sits around a shaft: offset as read, what the nose runs out, the way to mend it.

    `running_offset` is the offset once the crank floats in its clearance instead of lying low in it;
    `gaps_after` are the gaps to expect after the move. From blades alone, `polygon` holds every
    offset that they leave possible. `joint` says whether the same move can keep a joint face level.
    """

    offset: Vector
    standard_uncertainty: float
    mean_gap: float | None
    run_out: Vector | None
    running_offset: Vector | None
    closure: Closure | None
    polygon: tuple[tuple[float, float], ...]
    move: Move | None
    gaps_after: tuple[tuple[str, float], ...] = ()
    joint: JointMove | None = None
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SizeWanted:
    """The size that the one missing member must have for the fit to be proven within.

    As it will be read with `gauge`, whose own and shared uncertainty is taken off; empty: no gauge
    on the shelf reads it, and nothing of its own is taken off.
    """

    dimension: str
    low: float | None
    high: float | None
    target: float | None
    possible: bool
    gauge: str = ""


@dataclass(frozen=True, slots=True)
class FitVerdict:
    """Everything that is known of one limited fit or dimension in one state.

    `unread` are places of dimensions that were read elsewhere: the verdict does not speak for them.
    """

    id: str
    kind: str
    name: str
    fit_kind: str
    sense: str
    unit: str
    station: str | None
    limit_class: str
    verdict: Verdict
    reason: Reason | None
    words: str
    value: float | None
    standard_uncertainty: float | None
    degrees_of_freedom: float | None
    interval: tuple[float | None, float | None]
    in_hand: float | None
    bounds: tuple[BoundVerdict, ...]
    readings: tuple[str, ...]
    unused: tuple[Unused, ...]
    missing: tuple[str, ...]
    routes: tuple[RouteVerdict, ...] = ()
    comparison: RouteComparison | None = None
    hot: tuple[HotState, ...] = ()
    grip: tuple[Grip, ...] = ()
    centring: CentringFound | None = None
    form: Form | None = None
    size_wanted: SizeWanted | None = None
    rests_on_stated: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    removes_metal: bool = False
    unread: tuple[str, ...] = ()
    contradictions: tuple[Contradiction, ...] = ()
    budget: Budget = ()

    @property
    def source_kind(self) -> str | None:
        """The kind of source of the governing limit; of two, the one that weighs less."""
        kinds = [bound.source_kind for bound in self.bounds if bound.governs]
        return (
            SourceKind.RULE_OF_THUMB.value if SourceKind.RULE_OF_THUMB in kinds else next(iter(kinds), None)
        )


@dataclass(frozen=True, slots=True)
class NotRecorded:
    """Something of this job that has no reading or answer, and the reason if one was given."""

    id: str
    title: str
    station: str | None
    because: str | None


@dataclass(frozen=True, slots=True)
class NotOnSheet:
    """Something recorded at a dimension or place that the sheet does not have (any more)."""

    entry: str
    seq: int
    dimension: str
    place: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class Assessment:
    """All verdicts of a build in one state, with what is not recorded and what they rest on.

    `unlimited` are fits that the sheet sets no limit for: computed and shown, not judged. A critical
    fit is judged all the same: without a limit it stays unproven.
    """

    build: str
    state: State
    sheet: str
    head: int
    verdicts: Mapping[str, FitVerdict]
    unlimited: Mapping[str, FitVerdict]
    not_recorded: tuple[NotRecorded, ...]
    not_on_sheet: tuple[NotOnSheet, ...]
    not_in_this_job: Mapping[str, str]

    def count(self, verdict: Verdict) -> int:
        """How many limited fits and dimensions have this verdict."""
        return sum(1 for each in self.verdicts.values() if each.verdict is verdict)
