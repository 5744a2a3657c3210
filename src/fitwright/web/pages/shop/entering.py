"""How every page of the shop takes a form: fields shown again as typed, and what came of them in words.

A page names its forms with a function each that makes entries of what was sent (`Make`); `shop_route` joins
them to the page's context. The same address shows the page and takes its forms.
"""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.projection import Recorded
from fitwright.web.forms import EARLIER, Answered, Asked, answers_in
from fitwright.web.hands import Hands, hands_of
from fitwright.web.pages.problem import problem_page
from fitwright.web.people import PersonOption, people_to_choose, person_at, person_in, remember_person
from fitwright.web.rendering import Context, page
from fitwright.web.writing import KEPT, NOT_KEPT, Kept, Refused, Sent, UnclearFormError, sent, written

MOST_FIELDS = 400
"""A gauge study has three fields for each of up to a hundred readings."""


@dataclass(frozen=True, slots=True)
class Link:
    """Something to go to."""

    label: str
    address: str


@dataclass(frozen=True, slots=True)
class Told:
    """What came of a form: `kept`, `refused` or `question`, in words, with what it touches."""

    state: str
    title: str
    words: str
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True)
class Pick:
    """One line of a list to choose from."""

    value: str
    label: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Field:
    """One field of a form.

    `look` is text, amount, list, tick, date, words, pin or hidden; `unit` is that of a number without one,
    `echo` the address that says how it will be read, `describes` the id of its hint.
    """

    name: str
    label: str
    look: str
    value: str
    hint: str
    unit: str
    echo: str
    picks: tuple[Pick, ...]
    required: bool


@dataclass(frozen=True, slots=True)
class EntryForm:
    """One form of a page of the shop."""

    id: str
    title: str
    intro: str
    action: str
    token: str
    entry_id: str
    fields: tuple[Field, ...]
    more_title: str
    more: tuple[Field, ...]
    people: tuple[PersonOption, ...]
    button: str
    is_open: bool
    told: Told | None
    question: Asked | None
    earlier: tuple[Answered, ...]


class Posted(NamedTuple):
    """A form that was sent to this page, and what came of it."""

    form: str
    sent: Sent
    status: int
    told: Told
    question: Question | None
    answers: Mapping[str, str]
    reused: bool

    @property
    def is_kept(self) -> bool:
        """Whether it is done, so that the form begins anew."""
        return self.told.state == "kept"


class Asking(NamedTuple):
    """Who asks for a page, at which address, about which thing of the shop, and with which form."""

    hands: Hands
    address: str
    code: str
    query: Mapping[str, str]
    person: str | None
    posted: Posted | None

    def typed(self, form: str) -> Sent | None:
        """What was typed into a form of this page, as long as it is not kept."""
        posted = self.posted
        return posted.sent if posted is not None and posted.form == form and not posted.is_kept else None


class Made(NamedTuple):
    """Entries made of a form, and what to say of them once they are kept."""

    entries: Sequence[NewEntry]
    words: str
    links: Callable[[], tuple[Link, ...]] = tuple


class Order(NamedTuple):
    """A form to make entries of: who sent it, about which thing, with the answers to questions."""

    hands: Hands
    code: str
    sent: Sent
    person: str | None
    answers: Mapping[str, str]

    @property
    def entry_id(self) -> str | None:
        """The id that the form carries, so that sending it twice changes nothing."""
        return self.sent.get("entry_id") or None

    @property
    def is_sent_again(self) -> bool:
        """Whether this same form was kept before."""
        return self.entry_id in self.hands.shop.state.ledger.recorded

    def optional(self, name: str) -> str | None:
        """A field; None where it was left empty."""
        return self.sent.get(name) or None

    def code_given(self, new: Callable[[], str]) -> str:
        """The code that this same form was given when it came before; else a new one."""
        held = self.hands.shop.state.ledger.recorded.get(self.entry_id or "")
        code = getattr(held.body, "code", None) if held is not None else None
        return code if isinstance(code, str) else new()

    def free_code(self, taken: Mapping[str, Recorded[Any]], what: str) -> str:
        """The code typed, which nothing else of its kind may have."""
        code = self.wanted("code", "The code")
        held = taken.get(code)
        if held is not None and held.entry.id != self.entry_id:
            raise UnclearFormError(f"{what} {code} is there already", "type another code, or change that one")
        return code

    def further_id(self, number: int) -> str | None:
        """The id of a further entry of the same form: it follows from the form's own."""
        own = self.entry_id
        return None if own is None else uuid.uuid5(uuid.UUID(hex=own), str(number)).hex

    def wanted(self, name: str, what: str) -> str:
        """A field that cannot be empty."""
        found = self.sent.get(name)
        if not found:
            raise UnclearFormError(f"{what} is missing", "fill it in")
        return found


Make = Callable[[Order], "Made | Question"]


def shop_route(
    path: str, name: str, context: Callable[[Asking], Context | None], makes: Mapping[str, Make]
) -> Route:
    """The route of a page: shown with GET, its forms taken with POST at the same address."""

    async def answer(request: Request) -> Response:
        hands = hands_of(request)
        code = str(request.path_params.get("code", ""))
        posted, person = None, None
        if request.method == "POST":
            form = await sent(request, most_fields=MOST_FIELDS)
            posted = await run_in_threadpool(_take, hands, code, form, makes)
            person = form.get("person") or None
        person = person or person_at(request, hands.shop.state)
        asking = Asking(hands, _address_of(request), code, request.query_params, person, posted)
        found = await run_in_threadpool(_held, context, asking)
        if found is None:
            problem = f"Nothing called {code[:80]!r} is in the shop."
            return problem_page(request, problem, "Choose one of those that the page Shop lists.", status=404)
        response = page(found, status=posted.status if posted is not None else KEPT)
        if posted is not None and posted.is_kept and person in hands.shop.state.people:
            remember_person(response, person)
        return response

    return Route(path, answer, methods=["GET", "POST"] if makes else ["GET"], name=name)


def _address_of(request: Request) -> str:
    """Where a form of this page is sent: to the page itself, opened at the same thing."""
    query = request.url.query
    return request.url.path + (f"?{query}" if query else "")


def _held(context: Callable[[Asking], Context | None], asking: Asking) -> Context | None:
    with asking.hands.shop.held():
        return context(asking)


def _take(hands: Hands, code: str, form: Sent, makes: Mapping[str, Make]) -> Posted:
    """Write what a form asks for, and say what came of it."""
    named = form.get("form")
    answers = answers_in(form.fields)
    made: list[Made] = []

    def make() -> Sequence[NewEntry] | Question:
        if named not in makes:
            raise UnclearFormError("The form is none of this page", "open the page again and use its forms")
        found = makes[named](Order(hands, code, form, person_in(form, hands.shop.state), answers))
        if isinstance(found, Question):
            return found
        made.append(found)
        return found.entries

    pins = {form.get("signer"): form.get("pin")} if form.get("pin") else {}
    came = written(hands, form, make, pins=pins)
    if isinstance(came, Question):
        told = Told("question", "A question first", "")
        return Posted(named, form, KEPT, told, came, answers, reused=False)
    if isinstance(came, Refused):
        title = "Not kept" if came.status == NOT_KEPT else "Not taken"
        told = Told("refused", title, came.words)
        return Posted(named, form, came.status, told, None, answers, came.reused)
    return Posted(named, form, KEPT, _kept(hands, made[-1], came), None, answers, reused=False)


def _kept(hands: Hands, made: Made, came: Kept) -> Told:
    with hands.shop.held():
        links = made.links()
    return Told("kept", came.words.removesuffix("."), made.words, links)


class FormOf:
    """Makes a form of a page: its fields hold what was typed, else what is usual."""

    def __init__(self, asking: Asking, form: str) -> None:
        self.asking, self.form, self.typed = asking, form, asking.typed(form)

    def text(
        self, name: str, label: str, default: str = "", *, hint: str = "", required: bool = False
    ) -> Field:
        """A line of words."""
        return self._field(name, label, "text", default, hint=hint, required=required)

    def words(self, name: str, label: str, default: str = "", *, hint: str = "") -> Field:
        """Several lines of words."""
        return self._field(name, label, "words", default, hint=hint)

    def date(self, name: str, label: str, *, hint: str = "") -> Field:
        """A day."""
        return self._field(name, label, "date", "", hint=hint)

    def amount(
        self, name: str, label: str, default: str = "", *, unit: str, hint: str = "", required: bool = False
    ) -> Field:
        """A number; without a unit it is in `unit`, and the page says how it is read."""
        found = self._field(name, label, "amount", default, hint=hint, required=required)
        return _with_unit(found, unit)

    def pick(
        self, name: str, label: str, choices: Iterable[tuple[str, str]], default: str = "", *, hint: str = ""
    ) -> Field:
        """One of a list."""
        chosen = self.value(name, default)
        picks = tuple(Pick(value, words, value == chosen) for value, words in choices)
        return self._field(name, label, "list", default, hint=hint, picks=picks)

    def tick(self, name: str, label: str, *, ticked: bool = False, hint: str = "") -> Field:
        """Yes or no."""
        return self._field(name, label, "tick", "yes" if ticked else "", hint=hint)

    def pin(self, name: str, label: str, *, hint: str = "") -> Field:
        """A PIN: what was typed is never shown again."""
        return Field(name, label, "pin", "", hint, "", "", (), required=False)

    def hidden(self, name: str, value: str) -> Field:
        """What the form carries along."""
        return Field(name, "", "hidden", value, "", "", "", (), required=False)

    def value(self, name: str, default: str) -> str:
        """What a field holds: as typed, else the default."""
        return default if self.typed is None else self.typed.get(name)

    def _field(
        self,
        name: str,
        label: str,
        look: str,
        default: str,
        *,
        hint: str = "",
        picks: tuple[Pick, ...] = (),
        required: bool = False,
    ) -> Field:
        return Field(name, label, look, self.value(name, default), hint, "", "", picks, required)

    def made(
        self,
        title: str,
        fields: Sequence[Field],
        *,
        button: str,
        intro: str = "",
        more_title: str = "",
        more: Sequence[Field] = (),
        is_open: bool = False,
        person: bool = True,
    ) -> EntryForm:
        """The form."""
        asking = self.asking
        own = asking.posted if asking.posted is not None and asking.posted.form == self.form else None
        again = self.typed.get("entry_id") if self.typed is not None and own and not own.reused else ""
        who = self.typed.get("person") if self.typed is not None else asking.person
        people = people_to_choose(asking.hands.shop.state, who or None) if person else ()
        return EntryForm(
            id=self.form,
            title=title,
            intro=intro,
            action=asking.address,
            token=asking.hands.token.value,
            entry_id=again or uuid.uuid4().hex,
            fields=tuple(fields),
            more_title=more_title,
            more=tuple(more),
            people=people,
            button=button,
            is_open=is_open or self.typed is not None,
            told=own.told if own is not None else None,
            question=_asked(own.question) if own is not None else None,
            earlier=tuple(Answered(EARLIER + key, words) for key, words in own.answers.items())
            if own is not None and self.typed is not None
            else (),
        )


def _with_unit(field: Field, unit: str) -> Field:
    return Field(
        field.name,
        field.label,
        field.look,
        field.value,
        field.hint,
        unit,
        "/shop/echo",
        field.picks,
        field.required,
    )


def _asked(question: Question | None) -> Asked | None:
    if question is None:
        return None
    return Asked(question.key, question.text, tuple(guess.label for guess in question.guesses))
