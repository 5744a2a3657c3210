"""Every fit with its limits and what the readings prove: for the owner in families, else one by one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fitwright.assess.results import FitVerdict, Verdict
from fitwright.assess.words import BEFORE_METAL, HOT_NOT_JUDGED
from fitwright.dossier.sections.families import named_together, pattern_of
from fitwright.dossier.sections.teller import MARKS, Teller, counted
from fitwright.dossier.tree import Block, Column, Heading, Scale, Scales, Section, Table, Words
from fitwright.drawing.limit_scale import limit_scale, two_states
from fitwright.drawing.sentences import centring_sentences, settle_sentence, summary_sentence, titles_in

HOW_TO_READ = (
    "On a limit scale the brackets are the limits (broken ones are a rule of thumb), the bar is what the "
    "readings prove at 95 %, the dot its best value. A lighter bar below is the same hot: "
    f"{HOT_NOT_JUDGED}."
)


def fits(teller: Teller) -> Section:
    """The chapter of the fits."""
    blocks: list[Block] = [Words(summary_sentence(teller.known.assessment), "lead")]
    blocks += list(_each(teller) if teller.complete else _families(teller))
    if any(each.verdict is Verdict.OUTSIDE and each.removes_metal for each in _all(teller)):
        blocks.append(Words(BEFORE_METAL, "caution"))
    return Section("fits", "Fits", tuple(blocks), opens_page=teller.complete)


def _all(teller: Teller) -> list[FitVerdict]:
    return list(teller.known.assessment.verdicts.values())


def _each(teller: Teller) -> Iterator[Block]:
    """Every fit with its scale, station by station."""
    yield Words(HOW_TO_READ, "small")
    for title, here in by_station(teller, _all(teller)):
        yield Heading(title)
        yield Scales("", tuple(scale_of(teller, each) for each in here))
    unlimited = list(teller.known.assessment.unlimited.values())
    if unlimited:
        yield Heading("Computed, without a limit in the sheet")
        rows = tuple((each.name, teller.reader.value(each) or "not measured") for each in unlimited)
        yield Table(
            "Fits without a limit: shown, not judged", (Column("Fit", 2.0), Column("Value", mono=True)), rows
        )


def by_station(teller: Teller, found: Iterable[FitVerdict]) -> Iterator[tuple[str, list[FitVerdict]]]:
    """Fits under the titles of their stations, in the order of the sheet."""
    stations = teller.known.sheet.stations
    groups: dict[str | None, list[FitVerdict]] = {name: [] for name in stations}
    for each in found:
        groups.setdefault(each.station if each.station in stations else None, []).append(each)
    for name, here in groups.items():
        if here:
            yield stations[name].title if name is not None else "Elsewhere", here


def scale_of(teller: Teller, found: FitVerdict) -> Scale:
    """One fit with its scale; where it was reworked, as received above."""
    reader, before = teller.reader, reworked_from(teller, found)
    hot = found.hot[0] if found.hot else None
    value, limits = reader.value(found), reader.limits(found)
    parts = [found.name, found.words, value, f"limits {limits}" if limits else ""]
    parts += [f"as received {before.words} {reader.value(before)}".rstrip()] if before else []
    alt = f"Limit scale: {', '.join(each for each in parts if each)}"
    return Scale(
        name=f"{found.name}{' (critical)' if found.limit_class == 'critical' else ''}",
        source=reader.source(found),
        limits=f"limits {limits}" if limits else "no limit",
        verdict=teller.verdict(found),
        value=value,
        notes=tuple(_notes(teller, found, before)),
        svg=limit_scale(found, reader, hot=hot, label=alt)
        if before is None
        else two_states(before, found, reader, label=alt),
        alt=alt,
    )


def _notes(teller: Teller, found: FitVerdict, before: FitVerdict | None) -> Iterator[str]:
    reader = teller.reader
    if hand := reader.in_hand(found):
        yield hand
    if before is not None:
        yield f"as received: {teller.verdict(before)} {reader.value(before)}".rstrip()
    yield from _hot(teller, found)
    called = titles_in(teller.known.sheet)
    settle = settle_sentence(found, teller.known.current.settling(found.id), reader, called)
    if settle:
        yield f"would settle it: {settle}"
    permit = teller.known.permit_of(found.id)
    if permit is not None:
        yield f"{permit.kind} {permit.code}: {permit.because}"
    if found.rests_on_stated and teller.complete:
        yield f"rests on stated sizes: {', '.join(map(teller.title, found.rests_on_stated))}"
    yield from found.cautions if teller.complete else ()


def _hot(teller: Teller, found: FitVerdict) -> Iterator[str]:
    """The hot states in one line: estimated and not judged, but where the source gives a hot limit."""
    reader = teller.reader
    for judged, words in ((False, "estimated, not judged"), (True, "judged against a hot limit")):
        states = [reader.hot(found, each) for each in found.hot if each.judged is judged]
        if states:
            yield f"{'; '.join(states)}: {words}"
    for grip in found.grip:
        left = reader.amount(found, grip.interference, 1e-6)
        yield f"{grip.title}: interference {left}, pressure {teller.amount(grip.pressure, 'pressure')}"
    if found.centring is not None and (teller.complete or found.verdict is not Verdict.WITHIN):
        yield from centring_sentences(found, found.centring, reader)


def reworked_from(teller: Teller, found: FitVerdict) -> FitVerdict | None:
    """The verdict as received, where work since changed it."""
    if not _touched(teller, found):
        return None
    before = teller.known.before(found.id)
    if before is None or before.verdict is Verdict.NOT_MEASURED or before.readings == found.readings:
        return None
    return before


def _touched(teller: Teller, found: FitVerdict) -> bool:
    subject = teller.known.current.judge.subjects.get(found.id)
    return subject is not None and not teller.known.reworked.isdisjoint(subject.dimensions())


@dataclass(frozen=True, slots=True)
class _Family:
    """Fits that are alike but for their number."""

    name: str
    members: tuple[FitVerdict, ...]


def _families(teller: Teller) -> Iterator[Block]:
    """Families of like fits in one line each; those that are not plainly within with a scale of their own."""
    shown = [each for each in _all(teller) if _wants_scale(teller, each)]
    columns = (
        Column("Fit", 2.1),
        Column("Limits", 1.68, mono=True),
        Column("Who says so", 1.65),
        Column("Measured", 2.58, mono=True),
        Column("Verdict", 1.25),
    )
    rows: list[tuple[str, ...]] = []
    for title, here in by_station(teller, _all(teller)):
        rows += [(title,), *(_family_row(teller, each) for each in _grouped(here))]
    if rows:
        yield Table(
            "Every limited fit; those that differ in their number only stand together", columns, tuple(rows)
        )
    if shown:
        yield Heading("Accepted, or not proven within")
        yield Words(HOW_TO_READ, "small")
        yield Scales("Fits looked at one by one", tuple(scale_of(teller, each) for each in shown))


def _wants_scale(teller: Teller, found: FitVerdict) -> bool:
    open_ = found.verdict in (Verdict.OUTSIDE, Verdict.UNPROVEN)
    return open_ or teller.known.permit_of(found.id) is not None


def _grouped(found: Sequence[FitVerdict]) -> Iterator[_Family]:
    groups: dict[tuple[object, ...], list[FitVerdict]] = {}
    for each in found:
        limits = tuple((bound.side, bound.limit, bound.governs) for bound in each.bounds)
        groups.setdefault((pattern_of(each.name), each.source_kind, limits), []).append(each)
    for members in groups.values():
        yield _Family(named_together([each.name for each in members]), tuple(members))


def _family_row(teller: Teller, family: _Family) -> tuple[str, ...]:
    first, reader = family.members[0], teller.reader
    return (
        family.name,
        reader.limits(first) or "–",
        reader.source(first),
        _measured(teller, family),
        _verdicts(family),
    )


def _measured(teller: Teller, family: _Family) -> str:
    """The value of one; of several the smallest and the largest, with the largest uncertainty."""
    if len(family.members) == 1:
        return teller.reader.value(family.members[0]) or "–"
    reader = teller.reader
    known = [each for each in family.members if each.value is not None and each.standard_uncertainty]
    if not known:
        return "–" if all(each.verdict is Verdict.NOT_MEASURED for each in family.members) else "by blades"
    low, high = (choose(known, key=lambda each: each.value or 0.0) for choose in (min, max))
    ends = [reader.finely(each, each.value or 0.0) for each in (low, high)]
    unsure = max(each.standard_uncertainty or 0.0 for each in known)
    tail = ends[1].removeprefix(ends[1].partition(" ")[0])  # the unit, where there is one
    span = f"{ends[0].removesuffix(tail)} to {ends[1]}" if ends[0] != ends[1] else ends[1]
    return f"{span} (u {reader.finely(low, unsure, more=1).removesuffix(tail)})"


def _verdicts(family: _Family) -> str:
    if len({each.words for each in family.members}) == 1:
        first = family.members[0]
        all_of = f"all {len(family.members)} " if len(family.members) > 1 else ""
        return f"{MARKS[first.verdict]} {all_of}{_short(first)}"
    counts = {
        verdict: sum(each.verdict is verdict for each in family.members)
        for verdict in (Verdict.OUTSIDE, Verdict.UNPROVEN, Verdict.NOT_MEASURED, Verdict.WITHIN)
    }
    words = {Verdict.NOT_MEASURED: "not measured"}
    return ", ".join(
        f"{MARKS[verdict]} {number} {words.get(verdict, verdict.value)}"
        for verdict, number in counts.items()
        if number
    )


def _short(found: FitVerdict) -> str:
    """The verdict without the sentence behind its reason, which stands with its scale."""
    unproven = found.verdict is Verdict.UNPROVEN and found.reason is not None
    return f"unproven: {found.reason.value}" if unproven and found.reason else found.words


def verdict_counts(teller: Teller) -> str:
    """How many fits have which verdict, in words."""
    found = teller.known.assessment
    words = {Verdict.NOT_MEASURED: "not measured"}
    return (
        ", ".join(f"{found.count(verdict)} {words.get(verdict, verdict.value)}" for verdict in Verdict)
        + f" of {counted(len(found.verdicts), 'limited fit', 'limited fits')}"
    )
