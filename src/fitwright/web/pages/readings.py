"""A reading posted: durable first, then answered on the page of its fit with the verdict that follows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fitwright.assess.results import FitVerdict, State
from fitwright.bench.context import Bench
from fitwright.bench.taking import BLADE_ANSWERS, Taken, Taking, take_blade, take_value
from fitwright.drawing.accepted import accepted_in
from fitwright.formats.assessment import fit_as_json
from fitwright.model.slips import Question
from fitwright.records.entry import Acknowledgement, NewEntry
from fitwright.units.display import echo
from fitwright.units.families import Family
from fitwright.web.forms import Typed, answers_in
from fitwright.web.hands import Hands, View, family_of, hands_of, is_known
from fitwright.web.pages.fit import FitContext, Said, fit_context, touched_part
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.rendering import page
from fitwright.web.writing import KEPT, NOT_KEPT, Refused, Sent, UnclearFormError, sent, written


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of a posted reading, before it is shown."""

    status: int
    said: Said
    typed: Typed
    acknowledgement: Acknowledgement | None = None
    question: Question | None = None
    verdicts: tuple[FitVerdict, ...] = ()


async def take(request: Request) -> Response:
    """Take a reading from a form; whoever asks for JSON gets the same as data."""
    hands = hands_of(request)
    code = request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    fields = (await sent(request, most_fields=40)).fields
    family = family_of(request, code)
    if "application/json" in request.headers.get("accept", ""):
        brief = "return=minimal" in request.headers.get("prefer", "")
        return await run_in_threadpool(_data, hands, code, fields, family, brief=brief)
    whole = "hx-request" not in request.headers
    shown = await run_in_threadpool(_shown, hands, code, fields, family, whole=whole)
    if shown is None:
        problem = "The form names no fit of this build; nothing was taken."
        return problem_page(request, problem, "Open the page of a fit, and use its form.", status=404)
    return shown


def _shown(
    hands: Hands, code: str, fields: Mapping[str, str], family: Family, *, whole: bool
) -> Response | None:
    """The page of the fit after the reading; None where the form names no fit."""
    subject = fields.get("subject", "")
    with hands.shop.held():
        if subject not in hands.shop.assessor(code).judge.subjects:
            return None
    outcome = _outcome(hands, code, fields, family)
    context: FitContext = fit_context(
        hands, View(code, State.CURRENT, family), subject, outcome.typed, outcome.said, whole=whole
    )
    return page(context, status=outcome.status)


def _data(hands: Hands, code: str, fields: Mapping[str, str], family: Family, *, brief: bool) -> JSONResponse:
    """The answer as data; `brief` leaves the verdicts out: only the acknowledgement."""
    outcome = _outcome(hands, code, fields, family, verdicts=not brief)
    question, acknowledged = outcome.question, outcome.acknowledgement
    body = {
        "state": outcome.said.state,
        "words": outcome.said.words,
        "question": question.key if question else None,
        "guesses": [guess.label for guess in question.guesses] if question else [],
        "acknowledgement": {"seq": acknowledged.seq, "hash": acknowledged.hash} if acknowledged else None,
        "fits": [fit_as_json(each, None) for each in outcome.verdicts],
    }
    return JSONResponse(body, status_code=outcome.status)


def _outcome(
    hands: Hands, code: str, fields: Mapping[str, str], family: Family, *, verdicts: bool = True
) -> Outcome:
    taken: list[Taken] = []

    def make() -> Sequence[NewEntry] | Question:
        found = _taken(hands, code, fields)
        if isinstance(found, Question):
            return found
        taken.append(found)
        return found.entries

    came = written(hands, Sent(fields), make)
    if isinstance(came, Question):
        said = Said("question", "A question first", "")
        return Outcome(KEPT, said, Typed(fields, came, answers_in(fields), again=True), question=came)
    if isinstance(came, Refused):
        shown = {**fields, "entry_id": ""} if came.reused else fields
        title = "Not kept" if came.status == NOT_KEPT else "Not taken"
        return Outcome(came.status, Said("refused", title, came.words), Typed(shown, again=True))
    found: tuple[FitVerdict, ...] = ()
    accepted: Mapping[str, str] = {}
    if verdicts:
        with hands.shop.held():
            resting = sorted(_resting(hands, code, taken[-1], came.touched))
            found = tuple(hands.shop.verdicts(code, resting))
            accepted = accepted_in(hands.shop.assessor(code), found, datetime.now(UTC))
    return _kept(code, fields, taken[-1], came.acknowledgements[0], found, family, accepted=accepted)


def _taken(hands: Hands, code: str, fields: Mapping[str, str]) -> Taken | Question:
    dimension, _, place = fields.get("place", "").partition("|")
    bench = hands.shop.bench(code)
    setting = fields.get("setting") or None
    person = fields.get("person") or None
    if person is not None and person not in bench.shop.people:
        raise UnclearFormError(f'Nobody here is "{person[:40]}"', "choose one of those offered")
    taking = Taking(
        person=person,
        device=hands.device,
        instrument=_instrument(bench, fields.get("instrument") or None, setting),
        setting=setting,
        note=fields.get("note") or None,
        entry_id=fields.get("entry_id") or None,
        answers=answers_in(fields),
    )
    value, blade, did = fields.get("value", ""), fields.get("blade", ""), fields.get("answer", "")
    if not did:
        if not value:
            raise UnclearFormError("No value was typed", "type what the gauge says, or say what a blade did")
        return take_value(bench, dimension, place or None, value, taking)
    if did not in BLADE_ANSWERS:
        raise UnclearFormError(f'A blade cannot "{did}"', f"say one of {', '.join(BLADE_ANSWERS)}")
    if value:
        raise UnclearFormError("A value was typed and a blade tried", "enter one, empty the other")
    if not blade:
        raise UnclearFormError(f'Which blade "{did}" is not said', "choose the blade, then what it did")
    both = "+".join(each for each in (blade, fields.get("second_blade", "")) if each)
    return take_blade(bench, dimension, place or None, both, did, taking)


def _instrument(bench: Bench, instrument: str | None, setting: str | None) -> str | None:
    """The instrument chosen; a setting that was chosen says which it is."""
    if setting is None:
        return instrument
    held = bench.shop.settings.get(setting)
    if held is None:
        raise UnclearFormError(f'No setting "{setting}"', "choose one of those offered")
    if instrument not in (None, held.body.instrument):
        wrong = f"{setting} is a setting of {held.body.instrument}, not of {instrument}"
        raise UnclearFormError(
            wrong, "choose a setting of the instrument, or leave the instrument to the setting"
        )
    return held.body.instrument


def _resting(hands: Hands, code: str, taken: Taken, touched: frozenset[str]) -> frozenset[str]:
    """Of what was touched, the fits that rest on the dimension just read."""
    subjects = hands.shop.assessor(code).judge.subjects
    read = taken.reading.body["dimension"]
    return frozenset(each for each in touched if each in subjects and read in subjects[each].dimensions())


def _kept(
    code: str,
    fields: Mapping[str, str],
    taken: Taken,
    acknowledged: Acknowledgement,
    found: tuple[FitVerdict, ...],
    family: Family,
    *,
    accepted: Mapping[str, str],
) -> Outcome:
    shown = echo(taken.quantity) if taken.quantity is not None else _blade_words(taken)
    place = f"{taken.reading.body['dimension']} at {taken.reading.body['place']}"
    others = tuple(
        touched_part(code, each, family, accepted.get(each.id, ""))
        for each in found
        if each.id != fields.get("subject")
    )
    going_on = {name: fields[name] for name in _GOING_ON if fields.get(name)}
    words = f"Kept as entry {acknowledged.seq}: {shown}, {place}."
    why = _why_unused(taken, found)
    if why:
        words = f"{words} It does not count yet: {why}. Choose what is missing below, and enter it again."
    return Outcome(
        KEPT,
        Said("unused" if why else "kept", "Reading kept", words, others),
        Typed(going_on, again=True, after=fields.get("place", "")),
        acknowledged,
        verdicts=found,
    )


_GOING_ON = ("person", "instrument", "setting", "blade")
"""What stays in the form for the next reading."""


def _why_unused(taken: Taken, found: tuple[FitVerdict, ...]) -> str:
    """Why the reading just taken is kept but not used; nothing where it is used."""
    own = taken.reading.id
    return next((each.why for one in found for each in one.unused if each.entry == own), "")


def _blade_words(taken: Taken) -> str:
    observation = taken.reading.body["observation"]
    return f"{' with '.join(observation['blades'])} {observation['answer']}"
