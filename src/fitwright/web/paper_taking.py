"""What was written on paper taken: its sitting begun, clear places kept, doubts left where they are."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from pydantic import ValidationError

from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError
from fitwright.bench.look_back import Going, LookBack, look_back, look_back_answer
from fitwright.bench.order import Stop, stops
from fitwright.bench.paper import Noted, gauge_kinds, paper_groups, take_noted, time_on_paper
from fitwright.bench.photos import NOTEBOOK_PAGE, media_type_of, photo_of
from fitwright.bench.progress import reading_words
from fitwright.bench.sittings import begin_sitting
from fitwright.bench.taking import Taken, Taking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import BladeObservation
from fitwright.records.projection import ReadingRecord
from fitwright.records.times import system_clock
from fitwright.units import QuantityError
from fitwright.web.hands import Hands
from fitwright.web.paper_head import sitting_on_paper
from fitwright.web.paper_notes import ABOUT, LOOK, noted_in
from fitwright.web.paper_tables import SIZE, setting_field
from fitwright.web.people import person_in
from fitwright.web.writing import KEPT, REFUSED, Kept, Refused, Sent, UnclearFormError, capital, written


@dataclass(frozen=True, slots=True)
class SaidPart:
    """What came of the form, at its top."""

    state: str
    title: str
    words: str


@dataclass(slots=True)
class Came:
    """What came of a form: what is said at its top and at its places, the sitting it goes into."""

    said: SaidPart | None = None
    status: int = KEPT
    sitting: str = ""
    problems: dict[Stop, str] = field(default_factory=dict)
    questions: dict[Stop, Question] = field(default_factory=dict)
    raised: list[LookBack] = field(default_factory=list)


class Paper:
    """The paper of one station of a build, at this browser."""

    def __init__(self, hands: Hands, code: str, station: str, typist: str | None) -> None:
        self.hands, self.code, self.station, self.typist = hands, code, station, typist

    @property
    def bench(self) -> Bench:
        """What is open on the bench."""
        return self.hands.shop.bench(self.code)

    @property
    def order(self) -> tuple[Stop, ...]:
        """All places of the station."""
        return tuple(stops(self.bench.sheet, self.station))

    def in_setting(self, form: Sent, noted: Noted, taking: Taking) -> Taking:
        """How a place was read: in the setting that its table names, where it names one."""
        groups = paper_groups(self.bench, self.station)
        group = next(each for each in groups if each.holds(noted.stop))
        code = form.get(setting_field(group))
        held = self.bench.shop.settings.get(code)
        if held is None or not noted.size:
            return taking
        return replace(taking, setting=code, instrument=held.body.instrument)

    def kinds(self) -> tuple[str, ...]:
        """The kinds of gauge that the station asks for."""
        return tuple(gauge_kinds(paper_groups(self.bench, self.station)))

    def kept(self, sitting: str) -> dict[tuple[Stop, str], str]:
        """What is kept from paper in a sitting: place and box -> words."""
        found = {}
        for record in self.bench.build.readings.values():
            if record.effective and record.body.sitting == sitting and record.body.origin == "paper":
                words = f"{reading_words(record)}, entry {record.entry.seq}"
                found[Stop(record.dimension or "", record.place), _box_of(record)] = words
        return found

    def going(self, sitting: str) -> Going:
        """The way along the paper, with what was typed of it."""
        held = self.bench.build.readings.values()
        taken = [each.entry.id for each in held if each.effective and each.body.sitting == sitting]
        return Going(self.order, sitting, tuple(taken))


def _box_of(record: ReadingRecord) -> str:
    observation = record.body.observation
    return observation.answer if isinstance(observation, BladeObservation) else SIZE


def typed_in(own: Paper, form: Sent) -> Came:
    """Take what was typed, place by place."""
    came = Came(sitting=form.get("sitting"))
    noted = [each for each in (noted_in(form, stop) for stop in own.order) if not each.is_empty]
    looks = any(name.startswith(f"{LOOK}|") and told for name, told in form.fields.items())
    if not noted and not looks:
        came.said = SaidPart(
            "refused", "Nothing to keep", "No box was filled in: type what stands on the paper."
        )
        came.status = REFUSED
        return came
    wrong = _head(own, form, came)
    if wrong is None and looks:
        wrong = _answered(own, form, came)
    if wrong is None and noted:
        wrong = _rows(own, form, noted, came)
    if wrong is not None:
        came.said, came.status = SaidPart("refused", "Not kept", wrong.words), wrong.status
    return came


def _head(own: Paper, form: Sent, came: Came) -> Refused | None:
    """Check the head of the paper, and begin its sitting where it goes into none yet."""
    entry_id = _id_from(form, "sitting")
    already = next((code for code, held in own.bench.build.sittings.items() if held.entry.id == entry_id), "")
    came.sitting = came.sitting or already

    before = came.sitting

    def make() -> Sequence[NewEntry]:
        came.sitting = before  # it is made anew where another sitting took its code meanwhile
        person_in(form, own.bench.shop)
        _time(form)
        if came.sitting:
            own.bench.sitting(came.sitting)
            return []
        if not form.get("measured_by"):
            raise UnclearFormError("Who measured is not said", "choose who wrote the paper")
        body = sitting_on_paper(own.bench, own.kinds(), form.fields)
        entry = begin_sitting(own.bench, body, person=form.get("person") or None, entry_id=entry_id)
        came.sitting = body.code
        return [replace(entry, device=own.hands.device)]

    found = written(own.hands, form, make)
    if isinstance(found, Refused):
        came.sitting = before
        return found
    return None


def _time(form: Sent) -> str:
    return time_on_paper(form.get("taken_on"), form.get("taken_time"), now=system_clock())


def _rows(own: Paper, form: Sent, noted: list[Noted], came: Came) -> Refused | None:
    """Keep every place that is clear; the others stay in the form with what is wrong or asked."""
    taken: list[Taken] = []

    def make() -> Sequence[NewEntry]:
        taken.clear()
        taking = _taking(own, form, came)
        for each in noted:
            taken.extend(_place(own.bench, each, own.in_setting(form, each, taking), came))
        return [entry for each in taken for entry in each.entries]

    found = written(own.hands, form, make)
    if isinstance(found, Refused):
        return found
    assert isinstance(found, Kept)  # noqa: S101  (questions stay at their places)
    with own.hands.shop.held():
        going = own.going(came.sitting)
        raised = (look_back(own.bench, going, each.reading.id) for each in taken)
        came.raised = list({each.question.key: each for each in raised if each is not None}.values())
    came.said = _said(found, len(taken), came)
    came.status = KEPT if taken or came.questions else REFUSED
    return None


def _place(bench: Bench, noted: Noted, taking: Taking, came: Came) -> Iterator[Taken]:
    try:
        found = take_noted(bench, noted, taking)
    except ValidationError:
        raise
    except (BenchError, QuantityError, ValueError) as error:
        came.problems[noted.stop] = capital(str(error))
        return
    if isinstance(found, Question):
        came.questions[noted.stop] = found
        return
    yield from found


def _taking(own: Paper, form: Sent, came: Came) -> Taking:
    photo = form.get("photo_kept") or None
    if photo is not None:
        own.hands.shop.photo(photo)
    sitting = own.bench.sitting(came.sitting)
    remarks = form.get("note")
    return Taking(
        person=person_in(form, own.bench.shop),
        device=own.hands.device,
        sitting=came.sitting,
        origin="paper",
        measured_by=form.get("measured_by") or None,
        taken_at=_time(form),
        page_photo=photo,
        note=remarks if remarks and (sitting is None or sitting.words != remarks) else None,
        entry_id=_id_from(form, "places"),
    )


def _said(found: Kept, count: int, came: Came) -> SaidPart:
    left = len(came.problems) + len(came.questions)
    waits = f" {left} {'place is' if left == 1 else 'places are'} not kept yet: see there." if left else ""
    if not count:
        return SaidPart("refused" if came.problems else "question", "Nothing is kept yet", waits.strip())
    number = f"{count} {'reading' if count == 1 else 'readings'}"
    doubt = " What is kept raises a question: see there." if came.raised else ""
    return SaidPart("kept", f"{number} kept", f"{found.words}{waits}{doubt}")


def _answered(own: Paper, form: Sent, came: Came) -> Refused | None:
    """Write what was answered about readings that are kept already."""

    def make() -> Sequence[NewEntry]:
        going, entries = own.going(came.sitting), []
        for name, answer in form.fields.items():
            what, _, reading = name.partition("|")
            if what != LOOK or not answer:
                continue
            raised = look_back(own.bench, going, reading)
            if raised is None or raised.question.key != form.get(f"{ABOUT}|{reading}"):
                raise UnclearFormError("That question is not open any more", "go on with the paper")
            person = person_in(form, own.bench.shop)
            entries += look_back_answer(
                own.bench, going, raised, answer, person=person, device=own.hands.device
            )
        return [replace(each, device=own.hands.device) for each in entries]

    found = written(own.hands, form, make)
    if isinstance(found, Refused):
        return found
    assert isinstance(found, Kept)  # noqa: S101  (an answer raises no question)
    came.said = SaidPart("kept", "Answer kept", found.words)
    return None


def _id_from(form: Sent, what: str) -> str:
    """An id that follows from that of the form, so that a form sent twice counts once."""
    try:
        first = uuid.UUID(hex=form.get("entry_id"))
    except ValueError:
        first = uuid.uuid4()
    return uuid.uuid5(first, what).hex


def with_photo(own: Paper, form: Sent) -> tuple[Sent, Came]:
    """Keep a photo of the paper; the form with its digest, all else as it was."""
    came, digests = Came(sitting=form.get("sitting")), []

    def make() -> Sequence[NewEntry]:
        content = form.files.get("photo", b"")
        if not content:
            raise UnclearFormError("No photo was chosen", "choose one, then keep it")
        media_type = media_type_of(content)
        digests.append(own.hands.shop.keep_photo(content, media_type))
        title = own.bench.sheet.stations[own.station].title
        body = photo_of(digests[0], media_type, caption=title, subject=f"{NOTEBOOK_PAGE} {title}")
        person = person_in(form, own.bench.shop)
        return [own.hands.shop.entry(body, build=own.code, person=person, entry_id=_id_from(form, "photo"))]

    found = written(own.hands, form, make)
    if isinstance(found, Kept):
        form = replace(form, fields={**form.fields, "photo_kept": digests[0]})
        words = f"{found.words} Readings kept from now on name it as their page."
        came.said = SaidPart("kept", "Photo of the page kept", words)
    elif isinstance(found, Refused):
        came.said, came.status = SaidPart("refused", "Photo not kept", found.words), found.status
    return form, came
