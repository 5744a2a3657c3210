"""A reading of one line: a size, or a blade and what it did; durable before it is spoken of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fitwright.bench.keypad import BladeDid
from fitwright.bench.look_back import look_back
from fitwright.bench.order import Stop
from fitwright.bench.short_entries import AtPlace, BladeTyped, read_entry
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.units import echo
from fitwright.web.pages.measure.asked import reading_asked, slip_asked
from fitwright.web.pages.measure.blades import contradicts, proposed_blades
from fitwright.web.pages.measure.here import Here
from fitwright.web.pages.measure.parts import SaidPart
from fitwright.web.pages.measure.turn import Made, Turn, moved_to, refused
from fitwright.web.pages.measure.words import place_words
from fitwright.web.writing import Kept, Refused, Sent, UnclearFormError, written


def take_text(
    here: Here,
    stop: Stop,
    form: Sent,
    text: str,
    answers: dict[str, str],
    *,
    supersedes: str | None = None,
    back_to: Stop | None = None,
) -> Turn:
    """A size, or a blade in words."""
    made = Made(stop=stop)

    def make() -> Sequence[NewEntry] | Question:
        bench, at = here.bench, here.at(stop)
        taking = _taking(here, stop, form, answers, supersedes)
        entry = read_entry(text, at, unit=form.get("unit"))
        if isinstance(entry, BladeTyped):
            made.taken = take_blade(bench, stop.dimension, stop.place, entry.blades, entry.answer, taking)
            return made.taken.entries
        typed, taking = entry.quantity.typed, replace(taking, unit=entry.quantity.unit)
        found = take_value(bench, stop.dimension, stop.place, typed, taking)
        if isinstance(found, Question):
            return found
        made.taken = found
        return found.entries

    came = written(here.hands, form, make)
    if isinstance(came, Question):
        asked = slip_asked(came, text, answers, about=supersedes or "")
        return Turn(here, SaidPart("question", "A question first; nothing is kept yet", "", ""), asked)
    if isinstance(came, Refused):
        return refused(here, came, text)
    return _kept(here, stop, made, came, back_to)


def take_did(here: Here, stop: Stop, form: Sent, did: BladeDid) -> Turn:
    """What a blade did; without a blade named, the one proposed."""
    made = Made(stop=stop)

    def make() -> Sequence[NewEntry]:
        second = form.get("second_blade")
        blades = did.blades or proposed_blades(here, stop.dimension)
        if not blades:
            raise UnclearFormError("Which blade it was is not said", "choose a blade, then what it did")
        names = "+".join(each for each in (blades, second) if each)
        taking = _taking(here, stop, form, {}, None)
        made.taken = take_blade(here.bench, stop.dimension, stop.place, names, did.answer, taking)
        return made.taken.entries

    came = written(here.hands, form, make)
    if isinstance(came, Kept):
        return _kept(here, stop, made, came, None)
    assert isinstance(came, Refused)  # noqa: S101  (a blade raises no question)
    return refused(here, came, form.get("text"))


def _taking(here: Here, stop: Stop, form: Sent, answers: dict[str, str], supersedes: str | None) -> Taking:
    at = here.at(stop)
    chosen = form.get("blade_set")
    return Taking(
        person=here.person,
        device=here.device,
        sitting=here.sitting,
        outside_sittings=here.sitting is None,
        instrument=at.instrument.code if at.instrument is not None else None,
        setting=at.setting.code if at.setting is not None else None,
        note=form.get("note") or None,
        entry_id=form.get("entry_id") or None,
        blade_sets=(chosen,) if chosen in here.bench.shop.blade_sets else (),
        during_rework=form.get("during_rework") == "yes",
        answers=answers,
        supersedes=supersedes,
        reason="typed wrong" if supersedes is not None else None,
    )


def _kept(here: Here, stop: Stop, made: Made, came: Kept, back_to: Stop | None) -> Turn:
    """A reading is durable: where to go on, and what it raises."""
    assert made.taken is not None  # noqa: S101  (it was written)
    reading = made.taken.reading
    with here.hands.shop.held():
        raised = look_back(here.bench, here.going(), reading.id)
        against = made.taken.quantity is None and contradicts(
            here, here.bench.dimension(stop.dimension), stop.place
        )
        read = (stop.dimension, stop.place) in here.done() and not against
        following = here.next() if read else stop
        why = _why_unused(here, reading.id)
        where = place_words(here.bench.sheet, here.bench.dimension(stop.dimension), stop.place)
    title = here.bench.dimension(stop.dimension).title
    words = f"{_taken_words(made.taken, here.at(stop))}: {title}{f', {where}' if where else ''}. {came.words}"
    said = SaidPart("kept", "Kept", words, "")
    if why:
        said = SaidPart("unused", "Kept, and does not count yet", f"{words} {why}.", "")
    if against:
        words = f"{words} Another blade here says otherwise: try both again; / takes this one back."
        said = SaidPart("unused", "Kept, and it contradicts", words, "")
    if following is None:
        said = replace(said, words=f"{said.words} Every place of this station is read.")
    now = moved_to(here, back_to or following)
    return Turn(now, said, reading_asked(raised) if raised is not None else None, about=stop.dimension)


def _why_unused(here: Here, reading: str) -> str:
    shop = here.hands.shop
    record = here.bench.build.readings.get(reading)
    if record is None or record.dimension is None:
        return ""
    subjects = shop.assessor(here.code).judge.subjects.values()
    resting = [each.id for each in subjects if record.dimension in each.dimensions()]
    found = shop.verdicts(here.code, resting)
    return next((each.why for one in found for each in one.unused if each.entry == reading), "")


def _taken_words(taken: Taken, at: AtPlace) -> str:
    if taken.quantity is not None:
        return echo(taken.quantity, at.resolution)
    observation = taken.reading.body["observation"]
    return f"{' with '.join(observation['blades'])} {observation['answer']}"


def take_instead(here: Here, form: Sent, text: str) -> Turn:
    """Correct the reading taken last at this browser."""
    taken = here.going().taken
    sent_before = _corrected_by(here, form)
    return correct(here, form, text, {}, sent_before or (taken[-1] if taken else ""))


def _corrected_by(here: Here, form: Sent) -> str:
    """The reading that this form corrected already, where its answer was lost and it is sent again."""
    held = here.bench.build.ledger.recorded.get(form.get("entry_id"))
    return (held.body.supersedes or "") if held is not None else ""


def correct(here: Here, form: Sent, text: str, answers: dict[str, str], entry: str) -> Turn:
    """Take a text instead of a reading, at its place; afterwards one is where one was."""
    record = here.bench.build.readings.get(entry)
    stands = record is not None and (record.effective or _corrected_by(here, form) == entry)
    if record is None or record.dimension is None or not stands:
        words = "Nothing was read here in this sitting that could be corrected."
        return Turn(here, SaidPart("refused", "Not taken", words, text), status=422)
    where = Stop(record.dimension, record.place)
    return take_text(here, where, form, text, answers, supersedes=entry, back_to=here.stop)
