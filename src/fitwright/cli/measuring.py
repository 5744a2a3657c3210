"""The loop of `measure`: show a place, take what is typed, say what it proves, go on."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal

from fitwright.bench.asking import KEEP, guess_named
from fitwright.bench.errors import (
    BenchError,
    NoSuchMoveError,
    UnknownNameError,
    WrongKindError,
)
from fitwright.bench.moving import last_moved
from fitwright.bench.order import Stop, next_stop
from fitwright.bench.progress import done
from fitwright.bench.settings import instrument_named
from fitwright.bench.short_entries import AtPlace, BladeTyped, ValueTyped, at_place, read_entry
from fitwright.bench.taking import Taken, Taking, blade_name, take_blade, take_value
from fitwright.bench.withdrawing import not_measured
from fitwright.cli.looking_back import look_back, move
from fitwright.cli.session import Ended, Session
from fitwright.cli.showing import HELP, describe
from fitwright.model.slips import Question
from fitwright.model.station import Station
from fitwright.records.errors import RecordError
from fitwright.records.kinds import Instrument
from fitwright.units import QuantityError, echo

_COMMAND = re.compile(
    r"(?P<word>\?|undo|skip|again|end|because|with|set|instead|move (?:on|back))(?:\s+(?P<rest>.*))?"
)


class Measuring:
    """One person going along the places of a station."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.passed: set[tuple[str, str]] = set()

    def run(self, station: Station) -> None:
        """Go on until all places are read or passed over, or the person ends."""
        session = self.session
        session.say(f"{station.title}: {len(session.order)} places; ? lists what can be typed.")
        if station.caution:
            session.say(f"Caution: {station.caution}")
        try:
            stop = self._next(None)
            while stop is not None:
                stop = self._at(stop)
            session.say("Every place of this station was read or passed over.")
        except Ended:
            pass
        finally:
            session.say(session.count())

    def _next(self, after: Stop | None) -> Stop | None:
        return next_stop(self.session.order, self._done() | self.passed, after)

    def _done(self) -> set[tuple[str, str]]:
        return done(self.session.bench, self.session.using.sitting)

    def _at(self, stop: Stop) -> Stop | None:
        """One line typed at a place; the place to be at next."""
        at = self._place(stop)
        for line in describe(self.session.bench, at):
            self.session.say(line)
        return self._act(stop, at, self.session.line("> "))

    def _act(self, stop: Stop, at: AtPlace, text: str) -> Stop | None:
        try:
            command = _COMMAND.fullmatch(text)
            if command is not None:
                return self._command(stop, command["word"], (command["rest"] or "").strip())
            if not text:
                return self._pass(stop) if self._tried(stop) else stop
            return self._enter(stop, at, text)
        except (BenchError, QuantityError, RecordError) as error:
            self.session.say(f"! {error}")
            return stop

    def _tried(self, stop: Stop) -> bool:
        """Whether something was read at a place in this run; then an empty line goes on."""
        held = self.session.bench.build.readings
        return any(
            (held[each].dimension, held[each].place) == (stop.dimension, stop.place)
            for each in self.session.taken
        )

    def _pass(self, stop: Stop) -> Stop | None:
        self.passed.add((stop.dimension, stop.place))
        return self._next(stop)

    def _place(self, stop: Stop) -> AtPlace:
        bench, using = self.session.bench, self.session.using
        dimension = bench.dimension(stop.dimension)
        sitting = bench.sitting(using.sitting)
        instrument: Instrument | None
        try:
            instrument = bench.instrument(dimension, sitting, self._named(dimension.instruments))
        except BenchError:
            instrument = None  # which gauge it is, is asked once a value is typed
        mine = bench.shop.settings.get(using.setting or "")
        own = mine is not None and instrument is not None and mine.body.instrument == instrument.code
        return at_place(
            bench,
            dimension,
            bench.place(dimension, stop.place),
            instrument=instrument,
            sitting=sitting,
            setting=using.setting if own else None,
        )

    def _named(self, kinds: tuple[str, ...]) -> str | None:
        """The gauge named for this run, where it is of a kind that the dimension is taken with."""
        code = self.session.using.instrument
        held = self.session.bench.shop.instruments.get(code or "")
        return code if held is None or not kinds or held.body.type in kinds else None

    # What is typed at a place.

    def _enter(
        self, stop: Stop, at: AtPlace, text: str, supersedes: str | None = None, reason: str | None = None
    ) -> Stop | None:
        typed, using = read_entry(text, at), self.session.using
        taking = Taking(
            person=using.person,
            sitting=using.sitting,
            instrument=at.instrument.code if at.instrument is not None else None,
            setting=at.setting.code if at.setting is not None else None,
            blade_sets=(using.blade_set,) if using.blade_set else (),
            supersedes=supersedes,
            reason=reason,
        )
        if isinstance(typed, BladeTyped):
            self._blade(stop, typed, taking)
        else:
            instead = self._value(stop, typed, taking, text)
            if instead is not None:
                return self._act(stop, at, instead)
        return stop if (stop.dimension, stop.place) not in self._done() else self._next(stop)

    def _blade(self, stop: Stop, typed: BladeTyped, taking: Taking) -> None:
        bench = self.session.bench
        taken = take_blade(bench, stop.dimension, stop.place, typed.blades, typed.answer, taking)
        name = blade_name(bench, typed.blades.split("+")[0].strip(), taking.blade_sets)
        self.session.using = replace(self.session.using, blade_set=name.partition(":")[0])
        self._keep(taken, f"{'+'.join(taken.reading.body['observation']['blades'])} {typed.answer}")

    def _value(self, stop: Stop, typed: ValueTyped, taking: Taking, given: str) -> str | None:
        """Take a value; what was typed instead of an answer to its question, if something was.

        The same typed again keeps it: who is asked once and says it again means it.
        """
        text, answers = typed.quantity.typed, dict[str, str]()
        if typed.in_full:
            taking = replace(taking, unit=typed.quantity.unit)
        while True:
            found = take_value(
                self.session.bench, stop.dimension, stop.place, text, replace(taking, answers=answers)
            )
            if not isinstance(found, Question):
                break
            answer = self.session.answered(self.session.terminal.put(found))
            if answer == given:
                answer = KEEP
            if answer != KEEP and guess_named(found, answer) is None:
                return answer
            answers[found.key] = answer
        assert found.quantity is not None  # noqa: S101  (a value has one)
        if not typed.in_full:
            self.session.say(f"= {echo(found.quantity)}")
        self._keep(found, echo(found.quantity))
        look_back(self.session, found.reading.id)
        return None

    def _keep(self, taken: Taken, words: str) -> None:
        # Remembered first: should the terminal go away while the verdicts are shown, undo still knows it.
        self.session.taken.append(taken.reading.id)
        self.session.undo.remember(taken.reading.id, words)
        try:
            self.session.write(taken.entries, f"kept {words}")
        except RecordError:
            self.session.taken.pop()
            self.session.undo.forget(taken.reading.id)
            raise

    # Commands.

    def _command(self, stop: Stop, word: str, rest: str) -> Stop | None:
        match word:
            case "end":
                raise Ended
            case "skip":
                return self._pass(stop)
            case "undo":
                return self._undo(stop)
            case "again":
                back = self._last_stop()
                if back is None:
                    self.session.say("! Nothing was read here yet in this run.")
                return back or stop
            case "because":
                return self._because(stop, rest)
            case "instead":
                return self._instead(stop, rest)
        self._at_this_place(stop, word, rest)
        return stop

    def _at_this_place(self, stop: Stop, word: str, rest: str) -> None:
        match word:
            case "with":
                self._with(stop, rest)
            case "set":
                self._set(rest)
            case "?":
                for line in HELP:
                    self.session.say(line)
            case _:
                self._move_last("on" if word == "move on" else "back", rest)

    def _with(self, stop: Stop, code: str) -> None:
        instrument = instrument_named(self.session.bench.shop, code)
        dimension = self.session.bench.dimension(stop.dimension)
        if dimension.instruments and instrument.type not in dimension.instruments:
            what = f"{instrument.code} ({instrument.type})"
            raise WrongKindError(what, dimension.id, dimension.instruments)
        self.session.using = replace(self.session.using, instrument=instrument.code)

    def _undo(self, stop: Stop) -> Stop | None:
        session = self.session
        entry, words = session.undo.step(session.bench, person=session.using.person)
        back = self._stop_of(entry.body["entry"])
        session.write([entry], f"taken back: {words}")
        session.undo.undone()
        if back is not None:
            self.passed.discard((back.dimension, back.place))
        return back or stop

    def _stop_of(self, entry_id: str) -> Stop | None:
        record = self.session.bench.build.readings.get(entry_id)
        stop = Stop(record.dimension or "", record.place) if record is not None else None
        return stop if stop in self.session.order else None

    def _last_stop(self) -> Stop | None:
        stops = (self._stop_of(each) for each in reversed(self.session.taken))
        return next((stop for stop in stops if stop is not None), None)

    def _because(self, stop: Stop, words: str) -> Stop | None:
        if not words:
            self.session.say("! Say why: because WORDS")
            return stop
        entry = not_measured(self.session.bench, stop.dimension, words, person=self.session.using.person)
        self.session.undo.remember(entry.id, f"{stop.dimension} not measured, because {words}")
        self.session.write([entry], f"{stop.dimension} is not measured, because {words}")
        self.passed |= {
            (each.dimension, each.place) for each in self.session.order if each.dimension == stop.dimension
        }
        return self._next(stop)

    def _set(self, code: str) -> None:
        known = self.session.bench.shop.settings
        if code not in known:
            raise UnknownNameError("setting", code, list(known)[-8:])
        self.session.using = replace(self.session.using, setting=code)

    def _instead(self, stop: Stop, rest: str) -> Stop | None:
        """Correct the last reading taken: the new one supersedes it, with a reason."""
        held = self.session.bench.build.readings
        last = next((each for each in reversed(self.session.taken) if held[each].effective), None)
        where = self._stop_of(last) if last is not None else None
        text, _, reason = rest.partition(" because ")
        if last is None or where is None:
            self.session.say("! Nothing was read in this run that could be corrected.")
            return stop
        if not text.strip():
            self.session.say("! instead VALUE because REASON corrects the reading taken last.")
            return stop
        self._enter(where, self._place(where), text.strip(), last, reason.strip() or "typed wrong")
        return stop

    def _move_last(self, way: Literal["on", "back"], rest: str) -> None:
        if rest and not rest.isdigit():
            raise NoSuchMoveError(f"{rest} is no number of readings", "say `move on 3` or `move back 3`")
        session = self.session
        entry = last_moved(
            session.bench,
            session.order,
            session.taken,
            count=int(rest or 1),
            way=way,
            person=session.using.person,
        )
        move(session, entry)
