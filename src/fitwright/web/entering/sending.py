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
from fitwright.units.families import Family
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
from fitwright.web.entering.supposing import supposed
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.people import people_to_choose, person_in, remember_person
from fitwright.web.rendering import page
from fitwright.web.writing import NOT_KEPT, Came, Kept, Sent, UnclearFormError, sent, written

MOST_FIELDS = 600
"""The parts of a station have two fields each."""


class Sending:
    """One form on its way: who sends what, and what it un-proves, worked out before it is written."""

    def __init__(
        self, hands: Hands, forms: Forms, code: str, family: Family, kind: FormKind, form: Sent
    ) -> None:
        self.hands, self.forms, self.code, self.family = hands, forms, code, family
        self.kind, self.form = kind, form
        self.effects: Effects = NO_EFFECTS

    def asking(self) -> Asking:
        """The form with the build as it is now."""
        return asking_of(self.hands, self.code, self.family, self.form)

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


async def taken(request: Request, forms: Forms, do: str) -> Response:
    """Take a form of a page."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    kind = forms.kinds.get(do)
    if kind is None:
        return _no_form(request, forms)
    form = await sent(request, most_files=1 if kind.files else 0, most_fields=MOST_FIELDS)
    sending = Sending(hands, forms, code, family_of(request, code), kind, form)
    if form.get("look"):
        return await run_in_threadpool(_looked, request, sending)
    came = await run_in_threadpool(written, hands, form, sending.entries, pins=sending.pins())
    answer = await run_in_threadpool(_answered, request, sending, came)
    remember_person(answer, form.get("person") if isinstance(came, Kept) else None)
    return answer


async def looked_at(request: Request, forms: Forms, do: str) -> Response:
    """What a form would do as it is filled in now."""
    hands, code = hands_of(request), request.path_params["build"]
    kind = forms.kinds.get(do)
    if kind is None or not await is_known(hands, code):
        return _no_form(request, forms)
    sending = Sending(hands, forms, code, family_of(request, code), kind, from_address(request))
    return page(EffectsContext(await run_in_threadpool(_supposed, sending)))


def opened(hands: Hands, forms: Forms, asking: Asking, person: str | None) -> EntryForm | None:
    """The form that an address opens; inside `held`."""
    kind = forms.kinds.get(asking.get("do"))
    if kind is None:
        return None
    ready = kind.first is None or kind.is_ready(asking)
    effects = supposed(hands, kind, asking) if ready else NO_EFFECTS
    people = people_to_choose(asking.bench.shop, person)
    return form_of(hands, forms, kind, asking, people, effects=effects)


def _no_form(request: Request, forms: Forms) -> Response:
    mend = f"Open the page {forms.page} anew."
    return problem_page(request, "There is no such form.", mend, status=404)


def _supposed(sending: Sending) -> Effects:
    with sending.hands.shop.held():
        return supposed(sending.hands, sending.kind, sending.asking())


def _looked(request: Request, sending: Sending) -> Response:
    with sending.hands.shop.held():
        form = _form(sending, sending.form, supposed(sending.hands, sending.kind, sending.asking()))
    return _shown(request, sending, None, form, 200)


def _answered(request: Request, sending: Sending, came: Came) -> Response:
    if isinstance(came, Kept):
        return _shown(request, sending, _kept(sending, came), None, came.status)
    if isinstance(came, Question):
        with sending.hands.shop.held():
            form = _form(sending, sending.form, NO_EFFECTS, came)
        return _shown(request, sending, None, form, 200)
    title = "Not kept" if came.status == NOT_KEPT else "Not taken"
    said = Said("refused", title, came.words, NO_EFFECTS, None, "", "", "")
    fields = {**sending.form.fields, "entry_id": "" if came.reused else sending.form.get("entry_id")}
    with sending.hands.shop.held():
        form = _form(sending, Sent(fields, sending.form.lists), NO_EFFECTS)
    return _shown(request, sending, said, form, came.status)


def _form(sending: Sending, form: Sent, effects: Effects, question: Question | None = None) -> EntryForm:
    asking = asking_of(sending.hands, sending.code, sending.family, form)
    people = people_to_choose(asking.bench.shop, form.get("person") or None)
    return form_of(
        sending.hands, sending.forms, sending.kind, asking, people, effects=effects, question=question
    )


def _kept(sending: Sending, came: Kept) -> Said:
    hands, code, family, kind = sending.hands, sending.code, sending.family, sending.kind
    forms = sending.forms
    seqs = [each.seq for each in came.acknowledgements]
    own = came.acknowledgements[-1 if sending.form.get("pin_new") else 0]  # a PIN that was set with it stays
    undo = UndoForm(
        address=forms.enter(code, family, "back"),
        token=hands.token.value,
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


def _shown(
    request: Request, sending: Sending, said: Said | None, form: EntryForm | None, status: int
) -> Response:
    hands, forms, code, family = sending.hands, sending.forms, sending.code, sending.family
    return shown(request, hands, forms, code, family, said=said, form=form, status=status)


def shown(
    request: Request,
    hands: Hands,
    forms: Forms,
    code: str,
    family: Family,
    *,
    said: Said | None,
    form: EntryForm | None,
    status: int,
) -> Response:
    """The form and what came of it: alone where the page is there already, else the whole page."""
    if "hx-request" in request.headers:
        return page(EntryContext(said, form), status=status)
    return forms.whole(request, hands, code, family, said=said, form=form, status=status)
