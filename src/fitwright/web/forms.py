"""The form that takes one reading: where, with which gauge or blade, and what was typed so far."""

from __future__ import annotations

import uuid
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from markupsafe import Markup

from fitwright.assess.judging import Judge
from fitwright.assess.results import State
from fitwright.assess.settling import BLADES, PLUGS
from fitwright.assess.subjects import Subject
from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError
from fitwright.drawing.marks import blade_drawing
from fitwright.model.dimension import Dimension
from fitwright.model.slips import Question
from fitwright.records.kinds import BladeSet, Instrument, Setting
from fitwright.units.families import Family
from fitwright.web.addresses import readings_address
from fitwright.web.hands import Hands


@dataclass(frozen=True, slots=True)
class Option:
    """One line of a list to choose from; `unit` is what a value typed with it is read in."""

    value: str
    label: str
    chosen: bool
    unit: str = ""


@dataclass(frozen=True, slots=True)
class OptionGroup:
    """Lines of a list under one heading."""

    title: str
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """A question about what was typed, with the guesses that would mend it."""

    key: str
    words: str
    guesses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answered:
    """A question about the same value that was answered before."""

    name: str
    answer: str


@dataclass(frozen=True, slots=True)
class BladeAnswer:
    """What a blade can do, as a word and a picture."""

    word: str
    drawing: Markup


@dataclass(frozen=True, slots=True)
class ReadingForm:
    """The form that takes one reading."""

    action: str
    token: str
    entry_id: str
    subject: str
    places: tuple[OptionGroup, ...]
    value: str
    unit: str
    instruments: tuple[Option, ...]
    settings: tuple[Option, ...]
    more_open: bool
    people: tuple[Option, ...]
    blades: tuple[OptionGroup, ...]
    second_blades: tuple[OptionGroup, ...]
    answers: tuple[BladeAnswer, ...]
    blades_first: bool
    note: str
    question: Asked | None
    earlier: tuple[Answered, ...]
    again: bool


@dataclass(frozen=True, slots=True)
class Typed:
    """What a form brought, to be shown again; `again` puts the hand back where it was."""

    fields: Mapping[str, str] = field(default_factory=dict)
    question: Question | None = None
    answers: Mapping[str, str] = field(default_factory=dict)
    again: bool = False
    after: str = ""

    def get(self, name: str) -> str:
        """A field as typed; nothing where it was left empty."""
        return self.fields.get(name, "")


MOST_SETTINGS = 6
"""So many settings of each gauge are offered in the form, the last ones."""
EARLIER = "answered-"
"""Begins the names of fields that carry answers given before to questions about the same value."""

_ANSWERS = tuple(
    BladeAnswer(word, Markup(blade_drawing(word)))  # noqa: S704  (our own drawing)
    for word in ("goes", "drags", "does not go")
)


def reading_form(hands: Hands, code: str, subject: str, family: Family, typed: Typed) -> ReadingForm:
    """The form for the readings on which one fit rests, filled with what was typed."""
    bench = hands.shop.bench(code)
    judge = hands.shop.assessor(code).judge
    governing = _governing(judge.subjects[subject])
    names = sorted(judge.subjects[subject].dimensions(), key=lambda name: name not in governing)
    dimensions = [bench.sheet.dimensions[name] for name in names]
    place = _place(judge, [each for each in dimensions if each.id in governing], dimensions, typed)
    chosen = bench.sheet.dimensions[place.partition("|")[0]] if place else None
    instrument, setting = typed.get("instrument"), typed.get("setting")
    if typed.after and typed.after.partition("|")[0] != place.partition("|")[0]:
        instrument = setting = ""  # these were chosen for the dimension before
    gauge = _gauge(bench, chosen, instrument)
    by_blades = bool(bench.shop.blades) and _by_blades(dimensions) and not typed.get("value")
    wanted = typed.get("blade") or (_settling_blade(hands, code, subject) if dimensions else "")
    return ReadingForm(
        action=readings_address(code, family),
        token=hands.token.value,
        entry_id=typed.get("entry_id") or uuid.uuid4().hex,
        subject=subject,
        places=tuple(_places(bench, dimensions, place)),
        value=typed.get("value"),
        unit=gauge.unit if gauge else "",
        instruments=tuple(_instruments(bench, dimensions, instrument)),
        settings=tuple(_settings(bench, dimensions, setting)),
        more_open=bool(typed.get("note") or setting) or (not by_blades and not _is_ready(bench, gauge)),
        people=tuple(_people(bench, typed.get("person"))),
        blades=tuple(_blades(bench, dimensions, wanted)),
        second_blades=tuple(_blades(bench, dimensions, typed.get("second_blade"))),
        answers=_ANSWERS,
        blades_first=by_blades,
        note=typed.get("note"),
        question=asked_of(typed.question),
        earlier=tuple(Answered(EARLIER + key, words) for key, words in typed.answers.items()),
        again=typed.again,
    )


def _governing(subject: Subject) -> set[str]:
    """The dimensions of the route that governs; of all routes where none does."""
    routes = [each for each in subject.routes if each.name == subject.governing_route] or subject.routes
    return {term.dimension for route in routes for term in route.chain} or {*subject.dimensions()}


def answers_in(fields: Mapping[str, str]) -> dict[str, str]:
    """Answers to questions about a form: those given before, and the one given now."""
    found = {name.removeprefix(EARLIER): words for name, words in fields.items() if name.startswith(EARLIER)}
    if fields.get("question") and fields.get("answer_to_question"):
        found[fields["question"]] = fields["answer_to_question"]
    return found


def asked_of(question: Question | None) -> Asked | None:
    """A question as a form shows it."""
    if question is None:
        return None
    return Asked(question.key, question.text, tuple(guess.label for guess in question.guesses))


def _place(judge: Judge, first: list[Dimension], dimensions: list[Dimension], typed: Typed) -> str:
    """The place chosen; after a reading was kept the one that follows; else the first unread that governs."""
    every = [f"{each.id}|{place.id}" for each in dimensions for place in each.places]
    if typed.get("place") in every:
        return typed.get("place")
    if typed.after in every:
        return every[(every.index(typed.after) + 1) % len(every)]
    for each in first:
        read = {held.place for held in judge.member(each.id).evidence.used}
        unread = [place for place in each.places if place.id not in read]
        if unread:
            return f"{each.id}|{unread[0].id}"
    return every[0] if every else ""


def _places(bench: Bench, dimensions: list[Dimension], chosen: str) -> Iterator[OptionGroup]:
    for each in dimensions:
        gauge = _gauge(bench, each, "")
        unit = gauge.unit if gauge else ""
        names = {f"{each.id}|{place.id}": _place_words(each, place.id) for place in each.places}
        options = [Option(value, words, value == chosen, unit) for value, words in names.items()]
        yield OptionGroup(f"{each.title}, {_gauge_words(bench, each, gauge)}", tuple(options))


def _place_words(dimension: Dimension, place: str) -> str:
    words = place.replace("/", " ")
    return dimension.title if place == "whole" else f"{dimension.title}, {words}"


def _gauge(bench: Bench, dimension: Dimension | None, instrument: str) -> Instrument | None:
    """The gauge with which a value is read: the one chosen, or that of the sitting for the dimension."""
    held = bench.shop.instruments.get(instrument)
    if held is not None or dimension is None:
        return held.body if held is not None else None
    try:
        return bench.instrument(dimension, bench.sitting(None), None)
    except BenchError:
        return None


def _gauge_words(bench: Bench, dimension: Dimension, gauge: Instrument | None) -> str:
    if _by_blades([dimension]):
        return "by blades"
    if gauge is None:
        return "choose the instrument"
    not_set = "" if _is_ready(bench, gauge) else ", not set in this sitting"
    return f"{gauge.title}, reads {gauge.unit}{not_set}"


def _is_ready(bench: Bench, gauge: Instrument | None) -> bool:
    """Whether a value can be taken with it as it is: a comparison gauge needs a setting."""
    sitting = bench.sitting(None)
    if gauge is None or not gauge.comparison:
        return gauge is not None
    return sitting is not None and gauge.code in sitting.settings


def _settings(bench: Bench, dimensions: list[Dimension], chosen: str) -> Iterator[Option]:
    """What gauges of the kinds asked for were set against, the last first."""
    wanted = {kind for each in dimensions for kind in each.instruments}
    shown: Counter[str] = Counter()
    for held in reversed(bench.shop.settings.values()):
        instrument = bench.shop.instruments.get(held.body.instrument)
        if instrument is None or instrument.body.type not in wanted:
            continue
        shown[instrument.body.code] += 1
        if shown[instrument.body.code] > MOST_SETTINGS:
            continue
        yield Option(held.body.code, _setting_words(held.body), held.body.code == chosen)


def _setting_words(setting: Setting) -> str:
    size = f" at {setting.size.typed}" if setting.size is not None else ""
    against = setting.against or (f"in {setting.master}" if setting.master else "on its standard")
    return f"{setting.instrument}, {against}{size} ({setting.code})"


def _instruments(bench: Bench, dimensions: list[Dimension], chosen: str) -> Iterator[Option]:
    """Instruments of the kinds that the sheet asks for first, then the others."""
    wanted = {kind for each in dimensions for kind in each.instruments}
    every = [held.body for held in bench.shop.instruments.values()]
    for each in sorted(every, key=lambda body: body.type not in wanted):
        label = f"{each.title} ({each.code}), reads {each.unit}"
        yield Option(each.code, label, each.code == chosen, each.unit)


def _people(bench: Bench, chosen: str) -> Iterator[Option]:
    for held in bench.shop.people.values():
        yield Option(held.body.code, held.body.name, held.body.code == chosen)


def _by_blades(dimensions: Iterable[Dimension]) -> bool:
    """Whether the sheet asks for blades or plugs only."""
    return all(each.instruments and {*each.instruments} <= {BLADES, PLUGS} for each in dimensions)


def _blades(bench: Bench, dimensions: list[Dimension], chosen: str) -> Iterator[OptionGroup]:
    """The blades on the shelf; plugs only where the sheet asks for them."""
    plugs = any(PLUGS in each.instruments for each in dimensions)
    sets = [held.body for held in bench.shop.blade_sets.values() if plugs or not held.body.plugs]
    found = [OptionGroup(f"{each.title} ({each.code})", tuple(_of_set(each, chosen))) for each in sets]
    known = {option.value for group in found for option in group.options}
    if chosen and chosen not in known:
        yield OptionGroup("together", (Option(chosen, chosen.replace("+", " with "), chosen=True),))
    yield from found


def _of_set(held: BladeSet, chosen: str) -> Iterator[Option]:
    for blade in held.blades:
        if blade.available:
            name = f"{held.code}:{blade.marking}"
            yield Option(name, f"{blade.marking} of {held.code}", name == chosen)


def _settling_blade(hands: Hands, code: str, subject: str) -> str:
    """The blade, or blades together, most likely to settle the fit."""
    settling = hands.shop.assessor(code, State.CURRENT).settling(subject)
    proposals = settling.proposals if settling is not None else ()
    return next(("+".join(blade.key for blade in each.blades) for each in proposals if each.blades), "")
