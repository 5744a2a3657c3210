"""Readings of a first start: oil pressure with its speed and oil temperature, as a person types them.

A reading keeps what the needle showed; its pressure is that less what the gauge shows vented (`zero`).
What readings come to is in `first_start_view`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.bench.amounts import amount
from fitwright.bench.asking import Answered
from fitwright.bench.context import Bench
from fitwright.bench.entry_words import pressure_words
from fitwright.bench.errors import CannotEnterError
from fitwright.bench.first_start_view import ZERO_NOT_READ
from fitwright.bench.oil_entries import entries_of
from fitwright.bench.plausible import Amounts, Asked, read_amounts
from fitwright.bench.settings import instrument_named
from fitwright.bench.sittings import person_named
from fitwright.bench.taking import typed
from fitwright.bench.work_taking import EntryTaking, check_correction
from fitwright.model.slips import Question, Window
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Instrument, Origin, PressureReading
from fitwright.records.times import is_moment
from fitwright.units import Family, definition_of, format_value, shop_unit

TOP_SPEED: Final = amount("20000", "rpm")
SPEEDS: Final = Window(0.0, TOP_SPEED)
TEMPERATURES: Final = Window(amount("-40", "degC"), amount("200", "degC"))
USUAL_PRESSURE: Final = amount("4", "bar")
PRESSURES: Final = Window(0.0, amount("20", "bar"))
ZEROS: Final = Window(amount("-0.5", "bar"), amount("0.5", "bar"))
LIFTING_TIMES: Final = Window(0.0, amount("2", "min"))
"""Where amounts of a first start are expected; others are asked about."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureTyped:
    """A reading as it was typed, text by text; empty where nothing was said.

    `gauge` is what the needle showed and `zero` what it shows vented; `seconds` until it first lifted.
    `taken_at` is a date and time; `oil` an oil of the sheet by its id, or words, where it is another
    than the build is filled with.
    """

    speed: str
    temperature: str
    gauge: str
    zero: str = ""
    seconds: str = ""
    instrument: str = ""
    oil: str = ""
    step: str = ""
    measured_by: str = ""
    taken_at: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureTaking(EntryTaking):
    """Who enters a reading, in which units, under which id, and what it corrects."""

    family: Family = "mm"
    origin: Origin = "bench"


@dataclass(frozen=True, slots=True)
class PressureTaken:
    """The entries that a reading makes: the reading first, then answers to what was asked about it."""

    entries: tuple[NewEntry, ...]
    body: PressureReading
    words: str
    cautions: tuple[str, ...]


def take_pressure(bench: Bench, read: PressureTyped, taking: PressureTaking) -> PressureTaken | Question:
    """A reading typed: the entries to append, or the question to ask first.

    A question is answered by its key in `taking.answers`: with the label of a guess, or with any other
    words to keep what was typed.

    Raises
    ------
    BenchError
        If an amount is missing, or a gauge, a person or the reading to be corrected is not there.
    QuantityError
        If a text is no amount.
    """
    gauge = _gauge(bench, read.instrument)
    check_correction(bench, PressureReading, taking)
    texts = {
        "speed": read.speed,
        "temperature": read.temperature,
        "gauge": read.gauge,
        "zero": read.zero,
        "seconds": read.seconds,
    }
    amounts = read_amounts(asked_for(taking.family, gauge), texts, taking.answers)
    if isinstance(amounts, Question):
        return amounts
    body = _body(bench, read, amounts, taking)
    answered = list(amounts.answered)
    for question in _about_whole(bench, body, taking):
        answer = taking.answers.get(question.key)
        if answer is None:
            return question
        answered.append(Answered(question, read.gauge, answer))
    return _taken(bench, body, answered, taking)


def asked_for(family: Family, gauge: Instrument | None = None) -> tuple[Asked, ...]:
    """The amounts of a reading with the units that count where none is typed, as a form asks for them."""
    reads = gauge is not None and definition_of(gauge.unit).dimension == "pressure"
    by_gauge = gauge.unit if gauge is not None and reads else shop_unit("pressure", family)
    return (
        Asked(
            name="speed",
            label="Speed",
            dimension="angular_speed",
            unit=shop_unit("angular_speed", family),
            window=SPEEDS,
            needed=True,
        ),
        Asked(
            name="temperature",
            label="Oil temperature",
            dimension="temperature",
            unit=shop_unit("temperature", family),
            window=TEMPERATURES,
            needed=True,
        ),
        Asked(
            name="gauge",
            label="Gauge",
            dimension="pressure",
            unit=by_gauge,
            window=PRESSURES,
            usual=USUAL_PRESSURE,
            needed=True,
            gauge=gauge,
        ),
        Asked(
            name="zero",
            label="Zero",
            dimension="pressure",
            unit=by_gauge,
            window=ZEROS,
            zero_limit=gauge.zero_limit if gauge is not None else None,
        ),
        Asked(
            name="seconds",
            label="Time until it lifted",
            dimension="time",
            unit="s",
            window=LIFTING_TIMES,
        ),
    )


def _gauge(bench: Bench, code: str) -> Instrument | None:
    if not code:
        return None
    gauge = instrument_named(bench.shop, code)
    if definition_of(gauge.unit).dimension != "pressure":
        raise CannotEnterError(f"{gauge.code} reads {gauge.unit}", "name a gauge that reads a pressure")
    return gauge


def _body(bench: Bench, read: PressureTyped, amounts: Amounts, taking: PressureTaking) -> PressureReading:
    if read.taken_at and not is_moment(read.taken_at):
        raise CannotEnterError(f'"{read.taken_at}" is no date and time', "write it as 2031-05-04 09:30")
    who = person_named(bench.shop, read.measured_by) if read.measured_by else taking.person
    found = {name: typed(quantity) for name, quantity in amounts.quantities.items()}
    return PressureReading(
        angular_speed=found["speed"],
        oil_temperature=found["temperature"],
        gauge_reading=found["gauge"],
        zero=found.get("zero"),
        seconds_to_pressure=found.get("seconds"),
        instrument=read.instrument or None,
        oil=read.oil.strip() or None,
        step=read.step.strip() or None,
        measured_by=who,
        typed_by=taking.person,
        taken_at=read.taken_at or None,
        origin=taking.origin,
        note=read.note.strip() or None,
        supersedes=taking.supersedes,
        reason=taking.reason or None,
    )


def _about_whole(bench: Bench, body: PressureReading, taking: PressureTaking) -> Iterator[Question]:
    """What is asked about a reading as a whole: a pressure below that of the air, the same reading twice."""
    if body.gauge_pressure < 0.0:
        pressure = format_value(body.gauge_pressure, body.gauge_reading.unit, body.gauge_reading.decimals)
        text = f"Less its zero that is {pressure}, below the pressure of the air. Keep both?"
        yield Question(f"below:{body.gauge_pressure:.9g}", text)
    itself = (taking.entry_id, taking.supersedes)
    others = (held for held in bench.build.pressure_readings if held.entry.id not in itself)
    same = next((held.entry for held in others if _gist(held.body) == _gist(body)), None)
    if same is not None:
        yield Question(f"again:{same.id}", f"Entry {same.seq} says the same already. Enter it once more?")


def _gist(body: PressureReading) -> tuple[object, ...]:
    amounts = (body.angular_speed, body.oil_temperature, body.gauge_reading, body.zero)
    return (*(each.si if each is not None else None for each in amounts), body.instrument, body.step)


def _taken(
    bench: Bench, body: PressureReading, answered: list[Answered], taking: PressureTaking
) -> PressureTaken:
    return PressureTaken(
        entries=entries_of(bench, body, answered, taking),
        body=body,
        words=pressure_words(body, bench.sheet.oils),
        cautions=() if body.zero is not None else (ZERO_NOT_READ,),
    )
