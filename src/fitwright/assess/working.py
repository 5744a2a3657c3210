"""The working behind a verdict: readings, dimensions, chain, uncertainty, bounds, and what was left out.

Every figure carries its SI unit and where it came from (entry ids, a source, a formula), so that a
page or a terminal can show it in the reader's own unit.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf, isinf

from fitwright.assess.chains import Member
from fitwright.assess.gauges import place_key
from fitwright.assess.judging import Judge
from fitwright.assess.results import BoundVerdict, FitVerdict, Reason
from fitwright.assess.subjects import SI_UNIT
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import BladeReading, ValueReading
from fitwright.records.kinds import Instrument, ValueObservation
from fitwright.records.projection import ReadingRecord


@dataclass(frozen=True, slots=True)
class Figure:
    """One number of a working: its name, SI value, unit and uncertainty, and where it came from."""

    name: str
    value: float | None
    unit: str
    origin: str = ""
    words: str = ""
    standard_uncertainty: float | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One step: a formula, the figures put in, and what comes out."""

    title: str
    formula: str
    figures: tuple[Figure, ...]
    result: Figure | None = None


@dataclass(frozen=True, slots=True)
class Working:
    """All steps from the readings to the verdict on one fit."""

    subject: str
    title: str
    verdict: FitVerdict
    steps: tuple[Step, ...]


def working_of(judge: Judge, verdict: FitVerdict, *, readings: bool = True) -> Working:
    """The working of a verdict, rebuilt from the same evidence; perhaps without the readings themselves."""
    names = judge.subjects[verdict.id].dimensions()
    members = [judge.member(name) for name in names]
    computed = verdict.reason is not Reason.NOT_COMPUTED
    steps = [
        *(_readings_of(judge, member) for member in members if member.evidence.used and readings),
        *(_stated_of(member) for member in members if member.stated),
        *(_places_of(member) for member in members if member.values and computed),
        *_chain_steps(judge, verdict),
        *_ratio(judge, verdict),
        *_uncertainty(verdict, members),
        *(_bound(bound, verdict) for bound in verdict.bounds),
        *_comparison(verdict),
        *_form(verdict),
        *_centring(verdict),
        *_grip(verdict),
        *_contradictions(verdict),
        *_wanted(judge, verdict),
        *_hot(verdict),
        *_not_computed(verdict),
        *(_left_out(verdict) if readings else ()),
    ]
    return Working(verdict.id, verdict.name, verdict, tuple(steps))


def _not_computed(verdict: FitVerdict) -> Iterator[Step]:
    if verdict.reason is Reason.NOT_COMPUTED:
        figures = tuple(Figure("why", None, "", "", words) for words in verdict.cautions)
        yield Step("Cannot be computed", "", figures)


def _readings_of(judge: Judge, member: Member) -> Step:
    values = {reading.key: reading for reading in member.values}
    blades = {reading.key: reading for reading in member.blades}
    figures: list[Figure] = []
    for record in member.evidence.used:
        if record.entry.id in values:
            figures.append(_value_figure(judge, record, values[record.entry.id], member))
        else:
            figures.append(_blade_figure(blades[record.entry.id], record))
    return Step(
        f"Readings of {member.dimension.title}",
        "size at 20 C = indication - zero + correction, referred to 20 C",
        tuple(figures),
    )


def _value_figure(judge: Judge, record: ReadingRecord, reading: ValueReading, member: Member) -> Figure:
    observation = record.body.observation
    assert isinstance(observation, ValueObservation)  # noqa: S101
    gauge = judge.gauges.gauge(record)
    words = f"typed {observation.value.typed}"
    if gauge is not None:
        words += f", {gauge.instrument.title}{_calibrated(judge, gauge.instrument, record.order)}"
        if gauge.setting is not None:
            words += f", setting {gauge.setting.code}"
            if gauge.setting.zero is not None:
                words += f" (zero {gauge.setting.zero.typed} taken off)"
    return Figure(record.place, reading.value, SI_UNIT[member.dimension.sense], record.entry.id, words)


def _calibrated(judge: Judge, instrument: Instrument, at: int) -> str:
    """What has to be said of a gauge whose uncertainty nobody certified."""
    held = judge.gauges.calibration(instrument, at)
    if held is not None and not held.never:
        return ""
    return (
        " (never calibrated: typical uncertainty)"
        if held or instrument.typical
        else " (no calibration recorded)"
    )


def _blade_figure(reading: BladeReading, record: ReadingRecord) -> Figure:
    thickness = sum(blade.thickness for blade in reading.blades)
    names = " + ".join(blade.key for blade in reading.blades)
    words = f"{names} {reading.answer.value}"
    return Figure(record.place, thickness, "m", record.entry.id, words)


def _stated_of(member: Member) -> Step:
    figures = tuple(
        Figure(
            stated.place,
            stated.body.size.si,
            SI_UNIT[member.dimension.sense],
            stated.entry.id,
            f"stated by {stated.body.stated_by}, not read"
            + (f"; +- {stated.body.tolerance.typed}" if stated.body.tolerance else ""),
        )
        for stated in member.stated
    )
    return Step(f"Stated size of {member.dimension.title}", "uniform over its tolerance", figures)


def _places_of(member: Member) -> Step:
    estimated = estimate(member.values)
    unit = SI_UNIT[member.dimension.sense]
    figures = tuple(
        Figure(
            place.id,
            float(estimated.values[row]),
            unit,
            standard_uncertainty=float(estimated.covariance[row, row]) ** 0.5,
        )
        for place in member.dimension.places
        for row, key in enumerate(estimated.places)
        if key == place_key(member.dimension, place.id)
    )
    return Step(
        f"{member.dimension.title}, place by place",
        "generalised least squares over all readings of a place",
        figures,
    )


def _chain_steps(judge: Judge, verdict: FitVerdict) -> Iterator[Step]:
    subject = judge.subjects[verdict.id]
    for route, of_route in zip(subject.routes, verdict.routes, strict=False):
        formula = " ".join(
            f"{'+' if term.coefficient >= 0 else '-'} {_factor(term.coefficient)}{term.dimension}"
            for term in route.chain
        )
        governs = ", governs" if of_route.governs else ""
        result = of_route.result
        if result is None:
            missing = tuple(Figure(name, None, "", "", "not known") for name in of_route.missing)
            yield Step(f"Fit {route.name.value}{governs}", formula, missing)
            continue
        figures = tuple(Figure(place, None, "", "", "worst place") for place in result.places)
        value = Figure(
            verdict.name, result.value, verdict.unit, standard_uncertainty=result.standard_uncertainty
        )
        yield Step(f"Fit {route.name.value}{governs}", formula.lstrip("+ "), figures, value)


def _ratio(judge: Judge, verdict: FitVerdict) -> Iterator[Step]:
    fit = judge.subjects[verdict.id].fit
    spec = fit.compression if fit is not None else None
    if spec is None:
        return
    sheet = judge.sheet.dimensions
    members = [(field, name) for field in spec.__dataclass_fields__ if (name := getattr(spec, field))]
    figures = tuple(
        Figure(field.replace("_", " "), judge.member(name).mean(), SI_UNIT[sheet[name].sense], "", name)
        for field, name in members
    )
    yield Step(
        "Compression ratio",
        "1 + swept volume / (chamber + gasket + deck + dish + crevice); means over places",
        figures,
        Figure(verdict.name, verdict.value, verdict.unit, standard_uncertainty=verdict.standard_uncertainty),
    )


def _factor(coefficient: float) -> str:
    size = abs(coefficient)
    return "" if size == 1.0 else f"{size:g} * "


def _uncertainty(verdict: FitVerdict, members: Sequence[Member]) -> Iterator[Step]:
    if not verdict.budget:
        return
    names = _names_of_entries(members)
    figures = tuple(
        Figure(
            " ".join(names.get(word, word) for word in key.replace(":", " ").split(" ")),
            contribution,
            verdict.unit,
            key if key in names else "",
            _freedom(freedom),
        )
        for key, contribution, freedom in verdict.budget
        if contribution != 0.0
    )
    total = Figure(
        "standard uncertainty",
        verdict.standard_uncertainty,
        verdict.unit,
        "",
        _freedom(inf if verdict.degrees_of_freedom is None else verdict.degrees_of_freedom),
    )
    yield Step(
        "Uncertainty",
        "u^2 = sum of squares; what two readings share is added with its sign before squaring",
        figures,
        total,
    )


def _names_of_entries(members: Sequence[Member]) -> dict[str, str]:
    """What the entries behind some members are about, as one reads it."""
    names = {stated.entry.id: member.dimension.id for member in members for stated in member.stated}
    for member in members:
        for record in member.evidence.used:
            names[record.entry.id] = f"reading {member.dimension.id} {record.place}"
    return names


def _freedom(degrees: float) -> str:
    return "" if isinf(degrees) else f"{degrees:.3g} degrees of freedom"


def _bound(bound: BoundVerdict, verdict: FitVerdict) -> Step:
    relation = ">=" if bound.side == "lower" else "<="
    governs = "governs" if bound.governs else "does not govern"
    source = ", ".join(
        part
        for part in (bound.source_kind, bound.source, bound.place_in_source, bound.applies_to, governs)
        if part
    )
    figures = [Figure("limit", bound.limit, verdict.unit, source, f"written {bound.written}")]
    if bound.value is not None:
        figures.append(Figure("value at its worst places", bound.value, verdict.unit))
    if bound.standard_uncertainty is not None:
        figures.append(Figure("standard uncertainty", bound.standard_uncertainty, verdict.unit))
    if bound.acceptance_limit is not None:
        figures.append(Figure("proven from", bound.acceptance_limit, verdict.unit))
    reason = f" ({bound.reason.value})" if bound.reason else ""
    result = Figure("p", bound.probability, "1", "", f"{bound.verdict.value}{reason}")
    title = f"{bound.side.capitalize()} bound"
    return Step(title, f"p = P({verdict.id} {relation} limit)", tuple(figures), result)


def _comparison(verdict: FitVerdict) -> Iterator[Step]:
    found = verdict.comparison
    if found is None:
        return
    figures = (
        Figure("difference", found.difference, verdict.unit),
        Figure("its standard uncertainty", found.standard_uncertainty, verdict.unit),
    )
    yield Step("Two routes", f"first minus second, within 2 u: {found.words}", figures)


def _form(verdict: FitVerdict) -> Iterator[Step]:
    form = verdict.form
    if form is None:
        return
    figures = [Figure("mean of its places", form.mean, verdict.unit)]
    for name, figure in (("taper", form.taper), ("out of round", form.out_of_round)):
        if figure is not None:
            alone = f"repeatability alone would show {figure.from_repeatability:.2g} {verdict.unit}"
            words = f"largest in {figure.where}; {alone}"
            figures.append(Figure(name, figure.value, verdict.unit, "", words))
    yield Step("Form", "differences of readings in one plane, and along it at one angle", tuple(figures))


def _centring(verdict: FitVerdict) -> Iterator[Step]:
    found = verdict.centring
    if found is None:
        return
    figures = [
        Figure("offset to the right", found.offset.right, "m", "", "seen from the shaft and the nose"),
        Figure("offset up", found.offset.up, "m", "", "towards the top"),
    ]
    if found.mean_gap is not None:
        figures.append(Figure("mean gap", found.mean_gap, "m"))
    if found.run_out is not None:
        figures.append(Figure("nose run-out", found.run_out.magnitude, "m", "", "turns with the shaft"))
    if found.running_offset is not None:
        words = "estimated: a rule of thumb says how far a running crank lifts"
        figures.append(Figure("offset, crank running", found.running_offset.magnitude, "m", "", words))
    if found.closure is not None:
        figures.append(Figure("sums of opposite gaps differ by", found.closure.largest_difference, "m"))
    if found.polygon:
        figures.append(Figure("corners of what the blades leave", float(len(found.polygon)), "1"))
    figures.extend(Figure(f"after the move, {name}", gap, "m") for name, gap in found.gaps_after)
    yield Step(
        "Centring",
        "gap = mean + right sin(angle) + up cos(angle) - run-out, angle from the top, clockwise",
        tuple(figures),
    )


def _grip(verdict: FitVerdict) -> Iterator[Step]:
    for grip in verdict.grip:
        figures = [
            Figure("interference", grip.interference, "m", standard_uncertainty=grip.standard_uncertainty),
            Figure("hub, largest hoop stress", grip.hub_hoop_stress, "Pa"),
            Figure("hub, equivalent stress", grip.hub_equivalent_stress, "Pa"),
            Figure("shaft, hoop stress", grip.shaft_hoop_stress, "Pa"),
        ]
        if grip.holding_force is not None:
            figures.append(Figure("force to move it", grip.holding_force, "N"))
        result = Figure("contact pressure", grip.pressure, "Pa")
        yield Step(f"Grip, {grip.title}", "Lame, thick cylinders", tuple(figures), result)


def _contradictions(verdict: FitVerdict) -> Iterator[Step]:
    for clash in verdict.contradictions:
        figures = (
            Figure("all of them right", clash.probability_consistent, "1", "", clash.place),
            *(Figure(each.text, each.weight, "1") for each in clash.explanations),
            *(Figure("reading", None, "", entry) for entry in clash.readings),
        )
        yield Step("Contradictory", "how much weight each explanation has", figures)


def _wanted(judge: Judge, verdict: FitVerdict) -> Iterator[Step]:
    wanted = verdict.size_wanted
    if wanted is None:
        return
    unit = SI_UNIT[judge.sheet.dimensions[wanted.dimension].sense]
    figures = (Figure("from", wanted.low, unit), Figure("to", wanted.high, unit))
    read = f"as read with {wanted.gauge}" if wanted.gauge else "as read without any error of its own"
    possible = read if wanted.possible else "no size would prove it"
    yield Step(
        f"Size wanted of {wanted.dimension}",
        "limits, less the other members, less the gauges' uncertainty",
        figures,
        Figure("aim at", wanted.target, unit, "", possible),
    )


def _hot(verdict: FitVerdict) -> Iterator[Step]:
    for hot in verdict.hot:
        figures = (
            Figure("change", hot.change, verdict.unit),
            Figure("standard uncertainty", hot.standard_uncertainty, verdict.unit),
        )
        result = Figure(hot.title, hot.value, verdict.unit)
        yield Step(
            f"At {hot.title}",
            "sum of signed lengths times expansion times temperature rise",
            figures,
            result,
        )


def _left_out(verdict: FitVerdict) -> Iterator[Step]:
    if verdict.unused:
        figures = tuple(
            Figure(f"{unused.dimension} {unused.place}", None, "", unused.entry, unused.why)
            for unused in verdict.unused
        )
        yield Step("Kept but not used", "", figures)
