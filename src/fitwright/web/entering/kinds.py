"""The forms of a page by their names, and what each makes of what it brings."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, NamedTuple, Protocol

from fitwright.bench.work_taking import WorkTaken, WorkTaking
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Body
from fitwright.web.entering.asked import from_address
from fitwright.web.entering.controls import Asking, Control
from fitwright.web.entering.effects import Effects, effects_of
from fitwright.web.rendering import Context
from fitwright.web.visit import Visit
from fitwright.web.writing import Sent

if TYPE_CHECKING:
    from fitwright.web.entering.entry_form import EntryForm, Said

Controls = Callable[[Asking], tuple[Control, ...]]
Bodies = Callable[[Asking], Sequence[Body]]
Take = Callable[[Asking, WorkTaking], WorkTaken | Question]


class Suppose(Protocol):
    """What entries would do, or have done, in words."""

    def __call__(self, asking: Asking, entries: Sequence[NewEntry], *, done: bool, echo: str = "") -> Effects:
        """Before they are kept, or once they are (`done`)."""
        ...


def nothing(_: Asking) -> str:
    """No words."""
    return ""


def unproves(asking: Asking, entries: Sequence[NewEntry], *, done: bool, echo: str = "") -> Effects:
    """What entries un-prove, fit by fit."""
    return effects_of(asking.assessor, asking.code, asking.family, entries, done=done, echo=echo)


class FormKind(NamedTuple):
    """One form: how it is called, what it asks for, which entries it makes.

    What it makes are the `bodies` of entries, or (`take`) entries about which something may be asked first.
    `first` asks for what must be known before the rest can be asked; None where nothing must.
    `lead` says in a sentence what the form does, `caution` what can hurt or go wrong. `suppose` says
    what it would do before it is kept, None where there is nothing to say; `ask` asks for that.
    `promise` stands there as long as the form is not filled in, or what `ahead` says of it by then.
    `echo` is what was typed in both units. `signs` says that whoever is picked signs with a PIN, once
    the shop has two people; it may depend on what is asked.
    """

    name: str
    label: str
    title: str
    button: str
    controls: Controls
    bodies: Bodies | None = None
    first: Controls | None = None
    is_ready: Callable[[Asking], bool] = lambda _: True
    lead: Callable[[Asking], str] = nothing
    caution: Callable[[Asking], str] = nothing
    echo: Callable[[Asking], str] = nothing
    suppose: Suppose | None = unproves
    ask: str = "What does it un-prove?"
    promise: str = "Here it will say what it un-proves, before it is written."
    files: bool = False
    signs: bool | Callable[[Asking], bool] = False
    take: Take | None = None
    ahead: Callable[[Asking], Effects] | None = None

    def is_signed(self, asking: Asking) -> bool:
        """Whether what this form makes is signed."""
        return self.signs if isinstance(self.signs, bool) else self.signs(asking)


class Forms(NamedTuple):
    """The forms of one page: `address` opens one there, `enter` is where it is sent.

    `whole` makes the page around a form, or around what came of one; it holds the shop itself. `asked` is
    what an address asks of the page. `about` is the part of an address, if any, that names the thing of
    which the page is.
    """

    page: str
    kinds: Mapping[str, FormKind]
    address: Callable[..., str]
    enter: Callable[..., str]
    whole: Callable[[Visit, Said | None, EntryForm | None], Context]
    asked: Callable[[Visit], Sent] = from_address
    about: str = ""

    def at(self, visit: Visit) -> Forms:
        """The forms with the addresses of the thing that is visited."""
        if not self.about:
            return self
        thing = {self.about: visit.named(self.about)}
        return self._replace(address=partial(self.address, **thing), enter=partial(self.enter, **thing))
