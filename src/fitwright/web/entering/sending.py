"""A form sent: asked what it would do, or written; then what came of it."""

from __future__ import annotations

from collections.abc import Sequence

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.pins import has_pin, needs_pin
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry, same_again
from fitwright.records.ids import is_entry_id
from fitwright.web.entering.asked import asking_of, from_address
from fitwright.web.entering.controls import Asking
from fitwright.web.entering.effects import NO_EFFECTS, Effects
from fitwright.web.entering.entry_form import (
    EffectsContext,
    EntryContext,
    EntryForm,
    Said,
    UndoForm,
    form_of,
)
from fitwright.web.entering.kinds import FormKind, Forms
from fitwright.web.entering.making import entries_of, made_before
from fitwright.web.entering.opening import Endpoint
from fitwright.web.entering.supposing import supposed
from fitwright.web.pages.problem import problem_page
from fitwright.web.people import people_to_choose, person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.visit import NoBuildError, Visit, visit_of
from fitwright.web.writing import NOT_KEPT, Came, Kept, Sent, UnclearFormError, sent, written

MOST_FIELDS = 600
"""The parts of a station have two fields each."""


class Sending:
    """One form on its way: who sends what, and what it un-proves, worked out before it is written."""

    def __init__(self, visit: Visit, forms: Forms, kind: FormKind, form: Sent) -> None:
        self.visit, self.hands, self.forms = visit, visit.hands, forms.at(visit)
        self.kind, self.form = kind, form
        self.effects: Effects = NO_EFFECTS

    def asking(self) -> Asking:
        """The form with the build as it is now."""
        return asking_of(self.visit, self.form)

    def entries(self) -> Sequence[NewEntry] | Question:
        """The entries that the form makes; those that it made already, as they stand."""
        asking = self.asking()
        if not is_entry_id(asking.get("entry_id")):
            raise UnclearFormError("The form has lost its number", "open it anew and fill it in again")
        before = made_before(asking)
        if before:
            return [same_again(entry) for entry in before]
        person = person_in(self.form, asking.bench.shop)
        if self.kind.is_signed(asking):
            self._check_signer(person)
        found = entries_of(self.hands, self.kind, asking, person)
        if isinstance(found, Question):
            return found
        if self.kind.suppose is not None:
            self.effects = self.kind.suppose(asking, found, done=True, echo=self.kind.echo(asking))
        return [*self._first_pin(person), *found]

    def _check_signer(self, person: str | None) -> None:
        """Somebody signs, and has a PIN or sets one with this form where it takes one."""
        shop = self.hands.shop.state
        if person is None:
            raise UnclearFormError("Nobody is picked", "say who signs")
        if needs_pin(shop, person) and not has_pin(shop, person) and not self.form.get("pin_new"):
            name = shop.people[person].body.name
            raise UnclearFormError(f"{name} has no PIN yet", "set one below, typed twice, and sign with it")

    def _first_pin(self, person: str | None) -> list[NewEntry]:
        """The PIN of somebody who signs and had none: it is set in the same write."""
        new = self.form.get("pin_new")
        if not (new and person) or person in self.hands.shop.state.pins:
            return []
        return [self.hands.shop.pin_entry(person, new, again=self.form.get("pin_again"))]

    def pins(self) -> dict[str, str]:
        """What whoever signs typed, the PIN or the one that is set with it."""
        typed = self.form.get("pin") or self.form.get("pin_new")
        return {self.form.get("person"): typed} if typed else {}


def taking(forms: Forms, do: str = "") -> Endpoint:
    """Takes a form of a page: the one that the address names, where it is not always the same."""

    async def take(request: Request) -> Response:
        visit = await visit_of(request)
        kind = forms.kinds.get(do or visit.named("do"))
        if kind is None:
            return _no_form(request, forms)
        form = await sent(request, most_files=1 if kind.files else 0, most_fields=MOST_FIELDS)
        sending = Sending(visit, forms, kind, form)
        if form.get("look"):
            return await run_in_threadpool(_looked, sending)
        came = await run_in_threadpool(written, visit.hands, form, sending.entries, pins=sending.pins())
        answer = await run_in_threadpool(_answered, sending, came)
        remember_person(answer, form.get("person") if isinstance(came, Kept) else None)
        return answer

    return take


def looking(forms: Forms) -> Endpoint:
    """Answers with what a form would do as it is filled in now."""

    async def look(request: Request) -> Response:
        try:
            visit = await visit_of(request)
        except NoBuildError:
            return _no_form(request, forms)
        kind = forms.kinds.get(visit.named("do"))
        if kind is None:
            return _no_form(request, forms)
        sending = Sending(visit, forms, kind, from_address(visit))
        return page(EffectsContext(await run_in_threadpool(_supposed, sending)))

    return look


def _no_form(request: Request, forms: Forms) -> Response:
    mend = f"Open the page {forms.page} anew."
    return problem_page(request, "There is no such form.", mend, status=404)


def _supposed(sending: Sending) -> Effects:
    with sending.hands.shop.held():
        return supposed(sending.hands, sending.kind, sending.asking())


def _looked(sending: Sending) -> Response:
    visit, forms, kind = sending.visit, sending.forms, sending.kind
    with visit.hands.shop.held():
        effects = supposed(visit.hands, kind, sending.asking())
        form = filled(visit, forms, kind, sending.form, effects=effects)
    return shown(visit, forms, None, form)


def _answered(sending: Sending, came: Came) -> Response:
    visit, forms, kind, form = sending.visit, sending.forms, sending.kind, sending.form
    if isinstance(came, Kept):
        return shown(visit, forms, _kept(sending, came), None, status=came.status)
    if isinstance(came, Question):
        return shown(visit, forms, None, filled(visit, forms, kind, form, question=came))
    title = "Not kept" if came.status == NOT_KEPT else "Not taken"
    said = Said("refused", title, came.words, NO_EFFECTS, None, "", "", "")
    fields = {**form.fields, "entry_id": "" if came.reused else form.get("entry_id")}
    again = filled(visit, forms, kind, Sent(fields, form.lists))
    return shown(visit, forms, said, again, status=came.status)


def filled(
    visit: Visit,
    forms: Forms,
    kind: FormKind,
    form: Sent,
    *,
    effects: Effects = NO_EFFECTS,
    question: Question | None = None,
) -> EntryForm:
    """A form that was sent, as it was filled in."""
    with visit.hands.shop.held():
        asking = asking_of(visit, form)
        people = people_to_choose(asking.bench.shop, form.get("person") or None)
        return form_of(visit.hands, forms, kind, asking, people, effects=effects, question=question)


def _kept(sending: Sending, came: Kept) -> Said:
    code, family, forms, kind = sending.visit.code, sending.visit.family, sending.forms, sending.kind
    seqs = [each.seq for each in came.acknowledgements]
    own = came.acknowledgements[-1 if sending.form.get("pin_new") else 0]  # a PIN that was set with it stays
    undo = UndoForm(
        address=forms.enter(code, family, "back"),
        token=sending.hands.token.value,
        entry_id=own.id,
        entry=own.id,
        person=sending.form.get("person"),
    )
    going_on = {name: sending.form.get(name) for name in _GOING_ON if sending.form.get(name)}
    return Said(
        state="kept",
        title=f"{kind.title}.",
        words=came.words,
        effects=sending.effects,
        undo=undo if seqs and kind.name != "back" and "back" in forms.kinds else None,
        again=forms.address(code, family, do=kind.name, **going_on) if kind.label else "",
        again_label="Another one",
        close=forms.address(code, family),
    )


_GOING_ON = ("station", "by", "origin")
"""What stays in a form for the next of its kind."""


def shown(
    visit: Visit, forms: Forms, said: Said | None, form: EntryForm | None, *, status: int = 200
) -> Response:
    """The form and what came of it: alone where the page is there already, else the whole page."""
    alone = "hx-request" in visit.request.headers
    return page(EntryContext(said, form) if alone else forms.whole(visit, said, form), status=status)
