"""`fitwright first-start`: oil pressures typed in the terminal while somebody else runs the engine."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Annotated, Literal

from cyclopts import Parameter

from fitwright.assess.oil.filling import filling_of
from fitwright.bench.amounts import amount_words
from fitwright.bench.asking import KEEP, guess_named
from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError
from fitwright.bench.first_start import PressureTaken, PressureTaking, PressureTyped, asked_for, take_pressure
from fitwright.bench.first_start_typing import EXAMPLES, read_line
from fitwright.bench.first_start_view import CAUTIONS, ZERO_NOT_READ, last_zero_of, pressure_lines
from fitwright.bench.settings import instrument_named
from fitwright.bench.sittings import person_named
from fitwright.bench.withdrawing import Undo
from fitwright.cli.errors import OK
from fitwright.cli.session import Ended
from fitwright.cli.shop import DEFAULT_DATA, Data, family_of, opened
from fitwright.cli.terminal import Terminal
from fitwright.model.slips import Question
from fitwright.records.errors import RecordError
from fitwright.units import Family, QuantityError, definition_of, parse_quantity, shop_unit
from fitwright.wiring import Shop

HELP = (
    "SPEED TEMPERATURE GAUGE   a reading: rev/min, oil, what the needle shows",
    "... 6s WORDS   behind it: the time until the gauge first lifted, and what was being done",
    "zero AMOUNT    what the gauge shows vented, for the readings that follow; zero alone: not looked at",
    "list           the readings so far",
    "undo           take the last one back",
    "end            stop entering",
)
AMOUNTS = {each.name: each.dimension for each in asked_for("mm")}
"""What can be typed instead of an answer about each amount."""


def first_start(
    build: str,
    /,
    *,
    instrument: Annotated[str | None, Parameter(help="Code of the gauge on the shelf.")] = None,
    zero: Annotated[
        str | None, Parameter(help="What the gauge shows vented.", allow_leading_hyphen=True)
    ] = None,
    oil: Annotated[str | None, Parameter(help="Another oil than the build is filled with.")] = None,
    person: Annotated[str | None, Parameter(help="Who enters: code or name.")] = None,
    units: Annotated[Literal["mm", "inch"] | None, Parameter(help="Units of numbers without one.")] = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter the oil pressures of a first start, a line for each: speed, oil temperature, gauge.

    Each is durable before the next is asked for; ? lists what can be typed.

    Example: fitwright first-start corrie-five --zero "0.1 bar" --data demo
    """
    with opened(data) as shop:
        who = person_named(shop.state, person) if person is not None else None
        start = _Start(shop, build, family_of(shop, build, units), who)
        start.instrument, start.oil = instrument or "", oil or ""
        if instrument is not None:
            instrument_named(shop.state, instrument)
        start.set_zero(zero or "")
        start.run()
    return OK


class _Start:
    """One person entering readings; what stays the same from line to line."""

    def __init__(self, shop: Shop, build: str, family: Family, person: str | None) -> None:
        self.shop, self.build, self.family, self.person = shop, build, family, person
        self.instrument = self.zero = self.oil = ""
        self.terminal = Terminal()
        self.undo = Undo()
        self.kept = 0
        self.about_zero: dict[str, str] = {}

    @property
    def bench(self) -> Bench:
        return self.shop.bench(self.build)

    def set_zero(self, text: str) -> None:
        """What the gauge shows vented; what was answered about an earlier zero is forgotten."""
        if text.strip():
            parse_quantity(text, default_unit=shop_unit("pressure", self.family), dimension="pressure")
        self.zero = text.strip()
        self.about_zero.clear()

    def run(self) -> None:
        for line in self._lead():
            self.terminal.say(line)
        try:
            while (text := self.terminal.ask("> ")) is not None:
                self._act(text)
        except Ended:
            pass
        finally:
            self.terminal.say(f"{self.kept} {'reading' if self.kept == 1 else 'readings'} kept.")

    def _lead(self) -> Iterator[str]:
        yield from (f"Caution: {each}" for each in CAUTIONS)
        filling = filling_of(self.bench.sheet, self.bench.build)
        yield f"Oil: {filling.oil.title if filling.oil is not None else filling.problem}."
        last = last_zero_of(self.bench, self.instrument) if self.instrument and not self.zero else None
        if last is not None:
            yield f"{self.instrument} last showed {amount_words(last)} vented: type zero and what it is now."
        elif not self.zero:
            yield ZERO_NOT_READ
        yield (
            f"Type speed ({self._unit('angular_speed')}), oil temperature ({self._unit('temperature')}) "
            f"and gauge ({self._unit('pressure')}) in a line, as {EXAMPLES[self.family]}; ? helps."
        )

    def _unit(self, dimension: str) -> str:
        gauge = self.bench.shop.instruments.get(self.instrument)
        by_gauge = gauge.body.unit if gauge is not None and dimension == "pressure" else None
        return definition_of(by_gauge or shop_unit(dimension, self.family), dimension).shown

    def _act(self, text: str) -> None:
        word, _, rest = text.partition(" ")
        try:
            match word:
                case "":
                    pass
                case "end":
                    raise Ended
                case "?":
                    self._say(HELP)
                case "list":
                    self._say(each.words for each in pressure_lines(self.bench))
                case "undo":
                    self._undo()
                case "zero":
                    self.set_zero(rest)
                    self.terminal.say(f"Zero {self.zero}." if self.zero else ZERO_NOT_READ)
                case _:
                    self._take(text)
        except (BenchError, QuantityError, RecordError) as error:
            self.terminal.say(f"! {error}")

    def _say(self, lines: Iterator[str] | tuple[str, ...]) -> None:
        for line in lines:
            self.terminal.say(f"  {line}")

    def _undo(self) -> None:
        entry, words = self.undo.step(self.bench, person=self.person)
        self.shop.write([entry])
        self.undo.undone()
        self.kept -= 1
        self.terminal.say(f"Taken back: {words}")

    def _take(self, text: str) -> None:
        line = read_line(text)
        read = PressureTyped(
            speed=line.speed,
            temperature=line.temperature,
            gauge=line.gauge,
            zero=self.zero,
            seconds=line.seconds,
            instrument=self.instrument,
            oil=self.oil,
            step=line.step,
        )
        taken = self._asked(read)
        if isinstance(taken, str):
            self._act(taken)
            return
        written = self.shop.write(taken.entries)
        self.undo.remember(taken.entries[0].id, taken.words)
        self.kept += 1
        self.terminal.say(f"{taken.words}, entry {written.acknowledgements[0].seq}")

    def _asked(self, read: PressureTyped) -> PressureTaken | str:
        """The reading once all that is asked about it is answered, or a line typed instead of an answer.

        An amount typed instead of an answer stands in the place of the one that was asked about.
        """
        answers = dict(self.about_zero)
        while True:
            taking = PressureTaking(family=self.family, person=self.person, answers=answers)
            found = take_pressure(self.bench, read, taking)
            if not isinstance(found, Question):
                return found
            answer = self.terminal.put(found)
            if answer is None:
                raise Ended
            name = found.key.partition(":")[0]
            if answer == KEEP or guess_named(found, answer) is not None:
                answers[found.key] = answer
                if name == "zero":
                    self.about_zero[found.key] = answer
            elif name in AMOUNTS and _is_amount(answer, AMOUNTS[name]):
                read = replace(read, **{name: answer})
            else:
                return answer


def _is_amount(text: str, dimension: str) -> bool:
    try:
        parse_quantity(text, default_unit=shop_unit(dimension, "mm"), dimension=dimension)
    except QuantityError:
        return False
    return True
