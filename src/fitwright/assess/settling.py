"""What would settle an unproven fit: the blade, the gauge or the repeats most likely to do it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import TYPE_CHECKING, Any

from fitwright.assess.chains import Member
from fitwright.assess.results import BoundVerdict, FitVerdict, Reason, Verdict
from fitwright.assess.setting_chains import repeatability_of
from fitwright.assess.subjects import Subject
from fitwright.model.plausible import window_of
from fitwright.model.slips import Window
from fitwright.physics.metrology.blade_sets import SetCapability, blade_set_can_prove
from fitwright.physics.metrology.conformity import Bound, Capability, DecisionRule, Side, can_prove
from fitwright.physics.metrology.readings import Blade
from fitwright.physics.metrology.result import ChainResult
from fitwright.physics.metrology.settling import Gauge, Known, Means, Proposal, what_settles
from fitwright.records.kinds import BladeSet, Instrument

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

BLADES = "feeler blades"
PLUGS = "plug gauge"
MOST_PROPOSALS = 3
TROUBLE = 0.02
"""How much likelier one more blade in the stack, or one more repeat, has to make it."""
_SETTLED_BY_ENTRIES = (
    Reason.CHANGED_SINCE,
    Reason.NO_LIMIT_ADOPTED,
    Reason.INCOMPLETE,
    Reason.ROUTE_NOT_READ,
    Reason.CONTRADICTORY,
    Reason.TWO_DEVICES,
    Reason.NOT_COMPUTED,
)


_INSTEAD = {
    Reason.CONTRADICTORY: (
        "read it again, and withdraw or set aside what is wrong; or keep both values, with a reason"
    ),
    Reason.TWO_DEVICES: "somebody says which of two entries counts, or keeps both",
    Reason.NO_LIMIT_ADOPTED: "a named person adopts a limit, with a reason",
    Reason.NOT_COMPUTED: "look for the reading that makes no sense, and correct or withdraw it",
}
"""What settles it where no reading does."""


@dataclass(frozen=True, slots=True)
class SetOnShelf:
    """A blade set held against limits, before anything is tried."""

    code: str
    title: str
    capability: SetCapability


@dataclass(frozen=True, slots=True)
class GaugeOnShelf:
    """An instrument held against limits, before anything is read."""

    code: str
    title: str
    standard_uncertainty: float
    capability: Capability


@dataclass(frozen=True, slots=True)
class Settling:
    """What would settle one subject, the likeliest first, and what cannot."""

    subject: str
    side: str | None
    proposals: tuple[Proposal, ...]
    sets: tuple[SetOnShelf, ...] = ()
    gauges: tuple[GaugeOnShelf, ...] = ()
    instead: str = ""

    def words(self) -> str:
        """One phrase: what to try next, and how likely it is to settle the matter."""
        if self.instead:
            return self.instead
        if not self.proposals:
            return "nothing on the shelf would settle it"
        best = self.proposals[0]
        assumed = ", if all sizes expected here are equally likely" if best.is_assumed else ""
        share = "over 99%" if best.settles > 0.99 else f"{best.settles:.0%}"
        return f"{_means(best)} ({share} likely to settle it{assumed})"

    @property
    def too_coarse(self) -> tuple[SetOnShelf, ...]:
        """Blade sets on the shelf that cannot prove these limits, whatever the gap."""
        return tuple(each for each in self.sets if not each.capability.can_prove)

    def as_data(self) -> dict[str, Any]:
        """The same as plain data."""
        return {
            "words": self.words(),
            "side": self.side,
            "proposals": [
                {
                    "means": each.means.value,
                    "blades": [blade.key for blade in each.blades],
                    "gauge": each.gauge or None,
                    "repeats": each.repeats,
                    "probability_within": each.within,
                    "probability_outside": each.outside,
                    "assumes_window": each.is_assumed,
                }
                for each in self.proposals
            ],
            "blade_sets": [
                {
                    "set": each.code,
                    "can_prove": each.capability.can_prove,
                    "missing_blades": [
                        {
                            "answer": blade.answer.value,
                            "beside": blade.beside.key,
                            "from": blade.thinnest,
                            "to": blade.thickest,
                        }
                        for blade in each.capability.missing
                    ],
                }
                for each in self.sets
            ],
            "instruments": [
                {
                    "instrument": each.code,
                    "standard_uncertainty": each.standard_uncertainty,
                    "can_prove": each.capability.can_prove,
                }
                for each in self.gauges
            ],
        }


def _means(proposal: Proposal) -> str:
    if proposal.means is Means.GAUGE:
        times = "once" if proposal.repeats == 1 else f"{proposal.repeats} times"
        return f"read {times} with {proposal.gauge}"
    return "try " + " + ".join(blade.key for blade in proposal.blades)


def settling_of(judge: Judge, found: FitVerdict) -> Settling | None:
    """What would settle a subject; None where nothing is open."""
    if found.verdict not in (Verdict.UNPROVEN, Verdict.NOT_MEASURED):
        return None
    subject = judge.subjects[found.id]
    rule = judge.rules.of(subject.limit_class)
    sets = tuple(_sets(judge, subject, found, rule))
    if found.reason in _SETTLED_BY_ENTRIES:
        return Settling(found.id, None, (), sets, instead=_instead(found))
    bound = _open_bound(found)
    member = _only_member(judge, subject)
    window = _window(judge, subject, found, member) if member is not None else None
    known = _known(found, member, window) if member is not None else None
    if bound is None or member is None or known is None or (known.is_assumed and window is None):
        return Settling(found.id, None, (), sets, instead=_read_it(judge, subject, found))
    gauges = _gauges(judge, found, member)
    asked = Bound(_side(bound), bound.limit)
    shelves = _shelves(judge, member) or [[]]
    proposals = [
        proposal
        for index, shelf in enumerate(shelves)
        for proposal in what_settles(asked, rule, known, shelf=shelf, gauges=gauges if index == 0 else [])
    ]
    proposals.sort(key=_preference)
    on_shelf = tuple(_gauges_on_shelf(gauges, found, rule))
    return Settling(found.id, bound.side, tuple(proposals[:MOST_PROPOSALS]), sets, on_shelf)


def _instead(found: FitVerdict) -> str:
    if found.reason in _INSTEAD:
        return _INSTEAD[found.reason]
    if found.reason is Reason.CHANGED_SINCE:
        why = next((each.why for each in found.unused if each.changed), "parts changed")
        return f"{why}: read it again"
    if found.missing:
        return f"read {', '.join(found.missing[:3])}"
    return "read its other places" if found.reason is Reason.INCOMPLETE else "read its governing route"


def _read_it(judge: Judge, subject: Subject, found: FitVerdict) -> str:
    missing = found.missing or tuple(name for name in subject.dimensions() if not judge.member(name).known)
    if missing:
        return f"read {', '.join(missing[:3])}"
    return "read its places again, more than once"


def _open_bound(found: FitVerdict) -> BoundVerdict | None:
    governing = [bound for bound in found.bounds if bound.governs and bound.temperature_case is None]
    unproven = [bound for bound in governing if bound.verdict is Verdict.UNPROVEN]
    return next(iter(unproven or governing), None)


def _side(bound: BoundVerdict) -> Side:
    return "lower" if bound.side == "lower" else "upper"


def _only_member(judge: Judge, subject: Subject) -> Member | None:
    """The one dimension that is read directly, or the whole chain seen as one quantity."""
    names = subject.dimensions()
    members = [judge.member(name) for name in names]
    if len(members) == 1:
        return members[0]
    known = [member for member in members if member.values]
    return known[0] if len(known) == len(members) and known else None


def _window(judge: Judge, subject: Subject, found: FitVerdict, member: Member) -> tuple[float, float] | None:
    window: Window | None = None
    if len(subject.dimensions()) == 1:
        window = window_of(member.dimension, judge.sheet.fits.values())
    if window is None:
        limits = [bound.limit for bound in found.bounds]
        if not limits:
            return None
        window = Window(min(limits) / 2.0, max(limits) * 2.0)
    return (window.low, window.high) if window.low < window.high < float("inf") else None


def _known(found: FitVerdict, member: Member, window: tuple[float, float] | None) -> Known:
    places = {place for bound in found.bounds if bound.governs for place in bound.places}
    blades = tuple(reading for reading in member.blades if not places or reading.place in places)
    values = bool(member.values) and found.value is not None
    return Known(
        value=found.value if values else None,
        standard_uncertainty=found.standard_uncertainty if values else None,
        blade_readings=blades if len({reading.place for reading in blades}) == 1 else (),
        window=window,
    )


def _shelves(judge: Judge, member: Member) -> list[list[Blade]]:
    """The blade sets and plugs that fit the dimension's instruments; blades of one set stack, not of two."""
    kinds = member.dimension.instruments
    return [
        blades_of(held.body)
        for held in judge.gauges.shop.blade_sets.values()
        if (PLUGS if held.body.plugs else BLADES) in kinds
    ]


def blades_of(blade_set: BladeSet) -> list[Blade]:
    """The blades of a set that are there, by their names on the shelf."""
    return [
        Blade(f"{blade_set.code}:{blade.marking}", blade.thickness, blade.standard_uncertainty)
        for blade in blade_set.blades
        if blade.available
    ]


def _preference(proposal: Proposal) -> tuple[float, int]:
    """The likeliest first; each further blade or repeat has to be worth its trouble."""
    effort = max(len(proposal.blades), proposal.repeats) - 1
    return round(effort * TROUBLE - proposal.settles, 6), effort


def _gauges(judge: Judge, found: FitVerdict, member: Member) -> list[Gauge]:
    if found.value is not None and found.routes:
        return _again(judge, found)
    return [
        _gauge_of(judge, held.body)
        for held in judge.gauges.shop.instruments.values()
        if held.body.type in member.dimension.instruments
    ]


def _gauge_of(judge: Judge, instrument: Instrument) -> Gauge:
    """A gauge as it stands now: with its last setting and that setting's master."""
    setting = judge.gauges.last_setting(instrument)
    shared = judge.gauges.unknowns(instrument, setting)
    unset = instrument.transfer_uncertainty if setting is None else 0.0
    systematic = sqrt(sum(one.unknown.standard_uncertainty**2 for one in shared) + unset**2)
    return Gauge(instrument.code, systematic, repeatability_of(instrument))


def _again(judge: Judge, found: FitVerdict) -> list[Gauge]:
    """The same gauges once more: what readings have of their own shrinks, what they share stays."""
    result = next((route.result for route in found.routes if route.governs), None)
    if result is None or not result.budget:
        return []
    own, shared = _split(result, set(found.readings))
    names = sorted(set(_instruments(judge, found)))
    if own == 0.0:
        return []
    return [Gauge(" and ".join(names) or "the same gauges", shared, own, taken=1)]


def _split(result: ChainResult, readings: set[str]) -> tuple[float, float]:
    own = sum(part**2 for key, part, _ in result.budget if key in readings)
    shared = sum(part**2 for key, part, _ in result.budget if key not in readings)
    return sqrt(own), sqrt(shared)


def _instruments(judge: Judge, found: FitVerdict) -> Iterator[str]:
    for entry in found.readings:
        record = judge.build.readings.get(entry)
        gauge = judge.gauges.gauge(record) if record is not None else None
        if gauge is not None:
            yield gauge.instrument.code


def limits_of(found: FitVerdict) -> tuple[float | None, float | None, bool]:
    """The cold limits that govern, lower and upper; where none does, those stated first, and False."""
    cold = [bound for bound in found.bounds if bound.temperature_case is None]
    governing = [bound for bound in cold if bound.governs]
    chosen = governing or [bound for bound in cold if bound.source == cold[0].source]
    lower = next((bound.limit for bound in chosen if bound.side == "lower"), None)
    upper = next((bound.limit for bound in chosen if bound.side == "upper"), None)
    return lower, upper, bool(governing)


def _limits(found: FitVerdict) -> tuple[float | None, float | None]:
    lower, upper, governs = limits_of(found)
    return (lower, upper) if governs else (None, None)


def _sets(judge: Judge, subject: Subject, found: FitVerdict, rule: DecisionRule) -> Iterator[SetOnShelf]:
    """Every blade set on the shelf held against the limits, where blades can read the fit directly."""
    lower, upper = _limits(found)
    if not _read_by_blades(judge, subject) or (lower is None and upper is None):
        return
    for held in judge.gauges.shop.blade_sets.values():
        if held.body.plugs:
            continue
        capability = blade_set_can_prove(lower, upper, blades_of(held.body), rule)
        yield SetOnShelf(held.body.code, held.body.title, capability)


def _read_by_blades(judge: Judge, subject: Subject) -> bool:
    direct = [route.chain[0].dimension for route in subject.routes if len(route.chain) == 1]
    return any(BLADES in judge.sheet.dimensions[name].instruments for name in direct)


def _gauges_on_shelf(
    gauges: Sequence[Gauge], found: FitVerdict, rule: DecisionRule
) -> Iterator[GaugeOnShelf]:
    lower, upper = _limits(found)
    for gauge in gauges:
        uncertainty = gauge.standard_uncertainty(1)
        capability = can_prove(lower, upper, uncertainty, rule)
        yield GaugeOnShelf(gauge.key, gauge.key, uncertainty, capability)
