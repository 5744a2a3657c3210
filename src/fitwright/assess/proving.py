"""What a gauge can prove before anything is read: alone, with its partner, and of each fit.

A fit is taken as read once at one place with each gauge, all at 20 degrees Celsius: what temperatures add
is known only in a sitting. Where two gauges share a master, its error cancels as it does in a verdict,
because both carry it under the same key.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot, inf

from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict
from fitwright.assess.setting_chains import SettingChains, repeatability_of
from fitwright.assess.settling import limits_of
from fitwright.assess.subjects import Subject
from fitwright.model.dimension import Dimension
from fitwright.model.fit import Route
from fitwright.physics.metrology.conformity import Capability, DecisionRule, can_prove, narrowest_band
from fitwright.physics.metrology.welch import effective_degrees_of_freedom
from fitwright.records.kinds import Instrument, Setting


@dataclass(frozen=True, slots=True)
class Used:
    """A gauge that reads one member of a chain, in a setting; `coefficient` is that of the member."""

    coefficient: float
    instrument: Instrument
    setting: Setting | None


@dataclass(frozen=True, slots=True)
class Combined:
    """What readings together are uncertain by [SI], with the degrees of freedom behind it."""

    standard_uncertainty: float
    degrees_of_freedom: float

    def can_prove(self, lower: float | None, upper: float | None, rule: DecisionRule) -> Capability:
        """What it can prove of two limits."""
        return can_prove(lower, upper, self.standard_uncertainty, rule, self.degrees_of_freedom)

    def narrowest_band(self, rule: DecisionRule) -> float:
        """How far apart two limits must be for anything between them to be proven [SI]."""
        return narrowest_band(self.standard_uncertainty, rule, self.degrees_of_freedom)


@dataclass(frozen=True, slots=True)
class Partner:
    """Two gauges that read a clearance between them: with the master shared, and without."""

    gauge: str
    master: str
    shared: Combined
    apart: Combined


@dataclass(frozen=True, slots=True)
class Provable:
    """A fit as one gauge, with others where it needs them, would read it.

    `likes` counts fits of the same family that come out alike. `gauges` are the codes used. `missing` are
    dimensions for which no gauge is on the shelf; then nothing can be said. `set_anew` is what could be
    proven if the comparison gauge were set in the gauge that reads the other member; None where it is.
    """

    build: str
    subject: str
    title: str
    likes: int
    lower: float | None
    upper: float | None
    governs: bool
    combined: Combined
    capability: Capability | None
    gauges: tuple[str, ...]
    missing: tuple[str, ...]
    set_anew: Capability | None = None


def combined(chains: SettingChains, used: Sequence[Used]) -> Combined:
    """The uncertainty of a signed sum of sizes, each read once; what they share counts once."""
    parts: dict[str, float] = defaultdict(float)
    freedoms: dict[str, float] = {}
    for index, each in enumerate(used):
        own = f"reading {index}"
        parts[own] = each.coefficient * repeatability_of(each.instrument)
        freedoms[own] = each.instrument.repeatability_degrees_of_freedom or inf
        for one in chains.unknowns(each.instrument, each.setting):
            parts[one.unknown.key] += each.coefficient * one.sensitivity * one.unknown.standard_uncertainty
            freedoms[one.unknown.key] = one.unknown.degrees_of_freedom
        if each.setting is None and each.instrument.comparison:
            parts[f"not set:{each.instrument.code}"] += (
                each.coefficient * each.instrument.transfer_uncertainty
            )
    sizes = list(parts.values())
    freedom = effective_degrees_of_freedom(sizes, [freedoms.get(key, inf) for key in parts])
    return Combined(hypot(*sizes), float(freedom))


def alone(chains: SettingChains, instrument: Instrument) -> Combined:
    """The uncertainty of one reading with a gauge in its last setting."""
    return combined(chains, [Used(1.0, instrument, chains.last_setting(instrument))])


def partners(chains: SettingChains, instrument: Instrument) -> Iterator[Partner]:
    """The pairs of a comparison gauge and the gauge that it was last set in, of which this is one."""
    for held in chains.shop.instruments.values():
        gauge = held.body
        setting = chains.last_setting(gauge)
        master = chains.instrument(setting.master) if setting is not None else None
        if setting is None or master is None or instrument.code not in (gauge.code, master.code):
            continue
        pair = [Used(1.0, gauge, setting), Used(-1.0, master, chains.setting(setting.master_setting))]
        yield Partner(gauge.code, master.code, combined(chains, pair), _apart(chains, pair))


def _apart(chains: SettingChains, used: Sequence[Used]) -> Combined:
    """The same as if nothing were shared: another gauge, as good as the master, in its place."""
    each = [combined(chains, [one]) for one in used]
    sizes = [one.standard_uncertainty for one in each]
    freedom = effective_degrees_of_freedom(sizes, [one.degrees_of_freedom for one in each])
    return Combined(hypot(*sizes), float(freedom))


def provable_by(
    judge: Judge, build: str, verdicts: Mapping[str, FitVerdict], instrument: Instrument
) -> list[Provable]:
    """Every fit with limits that this gauge can take part in, families gathered where they come out alike."""
    gathered: dict[tuple[object, ...], list[Provable]] = {}
    for found in verdicts.values():
        subject = judge.subjects[found.id]
        one = _provable(judge, build, found, subject, instrument)
        if one is not None:
            family = subject.fit.family if subject.fit is not None else _dimension_family(subject)
            key = (family or found.id, one.lower, one.upper, one.gauges, one.missing, one.governs)
            gathered.setdefault(key, []).append(one)
    return [_with_likes(alike) for alike in gathered.values()]


def _dimension_family(subject: Subject) -> str | None:
    return subject.dimension.family if subject.dimension is not None else None


def _with_likes(alike: Sequence[Provable]) -> Provable:
    return replace(alike[0], likes=len(alike) - 1)


def _provable(
    judge: Judge, build: str, found: FitVerdict, subject: Subject, instrument: Instrument
) -> Provable | None:
    route = _route(judge, subject, instrument)
    if route is None:
        return None
    lower, upper, governs = limits_of(found)
    if lower is None and upper is None:
        return None
    used, missing = _gauges_for(judge, route, instrument)
    found_combined, rule = combined(judge.gauges, used), judge.rules.of(subject.limit_class)
    anew = None if missing else _set_anew(judge.gauges, used)
    return Provable(
        build=build,
        subject=found.id,
        title=found.name,
        likes=0,
        lower=lower,
        upper=upper,
        governs=governs,
        combined=found_combined,
        capability=None if missing else found_combined.can_prove(lower, upper, rule),
        gauges=tuple(dict.fromkeys(each.instrument.code for each in used)),
        missing=missing,
        set_anew=anew.can_prove(lower, upper, rule) if anew is not None else None,
    )


def _set_anew(chains: SettingChains, used: Sequence[Used]) -> Combined | None:
    """As if the comparison gauge were set in the gauge beside it; None where it is, or was never set."""
    compared = [each for each in used if each.instrument.comparison and each.setting is not None]
    direct = [each for each in used if not each.instrument.comparison]
    if len(compared) != 1 or len(direct) != 1 or compared[0].setting is None:
        return None
    gauge, master = compared[0], direct[0]
    if gauge.setting is None or gauge.setting.master == master.instrument.code:
        return None
    behind = master.setting.code if master.setting is not None else None
    setting = gauge.setting.model_copy(
        update={"master": master.instrument.code, "master_setting": behind, "standard_uncertainty": 0.0}
    )
    # In chains of its own: it has the code of a setting that is another.
    return combined(SettingChains(chains.shop), [replace(gauge, setting=setting), master])


def _route(judge: Judge, subject: Subject, instrument: Instrument) -> Route | None:
    """The route in which the gauge reads something: that which governs, else the first."""
    able = [
        route
        for route in subject.routes
        if any(_reads(judge, instrument, judge.sheet.dimensions[term.dimension]) for term in route.chain)
    ]
    return next((route for route in able if route.name == subject.governing_route), next(iter(able), None))


def _reads(judge: Judge, instrument: Instrument, dimension: Dimension) -> bool:
    """Whether a gauge is of a kind that the sheet names for a dimension, and reaches its size."""
    if instrument.type not in dimension.instruments:
        return False
    size = judge.member(dimension.id).mean()
    low = -inf if instrument.range_low is None else instrument.range_low
    high = inf if instrument.range_high is None else instrument.range_high
    return size is None or low <= size <= high


def _gauges_for(judge: Judge, route: Route, instrument: Instrument) -> tuple[list[Used], tuple[str, ...]]:
    """The gauge for each member: this one, its partner, or the first on the shelf that reaches the size."""
    chains = judge.gauges
    preferred = [(instrument, chains.last_setting(instrument)), *_linked(chains, instrument)]
    shelf = [(held.body, chains.last_setting(held.body)) for held in chains.shop.instruments.values()]
    used: list[Used] = []
    missing: list[str] = []
    for term in route.chain:
        dimension = judge.sheet.dimensions[term.dimension]
        fitting = (each for each in (*preferred, *shelf) if _reads(judge, each[0], dimension))
        gauge, setting = next(fitting, (None, None))
        if gauge is None:
            missing.append(dimension.title)
        else:
            used.append(Used(term.coefficient, gauge, setting))
    return used, tuple(missing)


def _linked(chains: SettingChains, instrument: Instrument) -> Iterator[tuple[Instrument, Setting | None]]:
    """The master that a gauge was set in, in that setting; the gauges that were set in it."""
    setting = chains.last_setting(instrument)
    master = chains.instrument(setting.master) if setting is not None else None
    if setting is not None and master is not None:
        yield master, chains.setting(setting.master_setting)
    for held in chains.shop.instruments.values():
        other = chains.last_setting(held.body)
        if other is not None and other.master == instrument.code:
            yield held.body, other
