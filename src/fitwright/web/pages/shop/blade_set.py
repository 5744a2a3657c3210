"""One set of blades: its row, what it can prove, a blade measured, a blade missing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fitwright.assess.resting import resting_on, with_blades
from fitwright.bench.asking import answer_entry
from fitwright.bench.blade_sets import (
    MARKED_UNITS,
    blade_named,
    blade_set_from,
    marked_thickness,
    markings_in,
    measured_blade,
    set_apart,
    set_named,
)
from fitwright.model.slips import Question
from fitwright.records.kinds import BladeSet
from fitwright.web.frame import Frame
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.shop.amounts import as_typed, exact, family_of_unit, in_unit_shown, small, usual_in
from fitwright.web.pages.shop.blade_row import BladeKey, blade_row, set_words, thickness_words
from fitwright.web.pages.shop.entering import Asking, EntryForm, FormOf, Made, Order, shop_route
from fitwright.web.pages.shop.history import HistoryLine, history_of
from fitwright.web.pages.shop.provable import FitProof, blade_proofs_of, proven_words
from fitwright.web.pages.shop.ways import shop_frame, shop_ways
from fitwright.web.writing import UnclearFormError

APART, BACK = "missing", "back"


@dataclass(frozen=True, slots=True)
class BladeSetContext:
    """The page of one set of blades."""

    template: ClassVar[str] = "shop/blade_set.html"
    frame: Frame
    ways: tuple[Choice, ...]
    title: str
    words: str
    row: tuple[BladeKey, ...]
    proofs: tuple[FitProof, ...]
    judged: str
    rests: str
    forms: tuple[EntryForm, ...]
    history: tuple[HistoryLine, ...]


def _blade_set(asking: Asking) -> BladeSetContext | None:
    shop = asking.hands.shop
    held = shop.state.blade_sets.get(asking.code)
    if held is None:
        return None
    body = held.body
    unit = _unit_of(body)
    proofs = blade_proofs_of(asking.hands, body, family_of_unit(unit))
    return BladeSetContext(
        frame=shop_frame(asking.hands, body.code),
        ways=shop_ways("Blades"),
        title=body.title,
        words=set_words(body),
        row=blade_row(body),
        proofs=proofs,
        judged=_judged(proofs, is_any=bool(shop.builds())),
        rests=_rests(asking, body),
        forms=(
            _measure_form(asking, body, unit),
            _apart_form(asking, body),
            _change_form(asking, body, unit),
        ),
        history=history_of(shop.state, BladeSet.kind, body.code),
    )


def _unit_of(body: BladeSet) -> str:
    """The unit that most of its blades are marked in."""
    units = [marked[1] for blade in body.blades if (marked := marked_thickness(blade)) is not None]
    return max(MARKED_UNITS, key=units.count) if units else "mm"


def _judged(proofs: tuple[FitProof, ...], *, is_any: bool) -> str:
    if not is_any:
        return "No build is started yet, so there are no fits to hold it against."
    if not proofs:
        return "No fit with limits in any build is read with these."
    return proven_words(proofs, "that are read so")


def _rests(asking: Asking, body: BladeSet) -> str:
    shop = asking.hands.shop
    parts = []
    for code, started in shop.builds().items():
        judge, verdicts = shop.assessor(code).judge, shop.assessment(code).verdicts
        found = resting_on(judge, verdicts, with_blades(body.code))
        if found.readings:
            parts.append(f"{found.readings} readings and {len(found.fits)} fits of {started.title}")
    return " and ".join(parts)


def _measure_form(asking: Asking, body: BladeSet, unit: str) -> EntryForm:
    form = FormOf(asking, "measure")
    chosen = asking.query.get("blade", "")
    blades = [(blade.marking, _label(body, blade.marking)) for blade in body.blades]
    return form.made(
        "Measure a blade",
        [
            form.pick("blade", "Blade", blades, chosen),
            form.amount("thickness", "Thickness", unit=unit, required=True),
            form.amount(
                "uncertainty",
                "Known to",
                usual_in(family_of_unit(unit), "0.001 mm"),
                unit=unit,
                hint=f"standard uncertainty; {usual_in(family_of_unit(unit), '0.001 mm')} is a typical one",
            ),
        ],
        intro="Readings taken with it before count with the new thickness from then on.",
        button="Enter the thickness",
        is_open=bool(chosen),
    )


def _label(body: BladeSet, marking: str) -> str:
    blade = blade_named(body, marking)
    if not blade.available:
        return f"{marking}, missing or worn out"
    return f"{marking}, measured {thickness_words(blade)}" if blade.measured else f"{marking}, as marked"


def _apart_form(asking: Asking, body: BladeSet) -> EntryForm:
    form = FormOf(asking, "apart")
    chosen = asking.query.get("blade", "")
    blades = [(blade.marking, _label(body, blade.marking)) for blade in body.blades]
    return form.made(
        "A blade is missing or worn out, or back",
        [
            form.pick("blade", "Blade", blades, chosen),
            form.pick("state", "It is", [(APART, "missing or worn out"), (BACK, "there again")], APART),
            form.text("reason", "Why", hint="bent, lost, found"),
        ],
        intro="A missing blade is offered nowhere any more; what was read with it still counts.",
        button="Enter it",
    )


def _change_form(asking: Asking, body: BladeSet, unit: str) -> EntryForm:
    form = FormOf(asking, "change")
    marked = [
        blade.marking + (f"={exact(blade.thickness, unit, 'length')}" if blade.measured else "")
        for blade in body.blades
    ]
    gone = [blade.marking for blade in body.blades if not blade.available]
    plain = [blade.standard_uncertainty for blade in body.blades if not blade.measured]
    measured = [blade.standard_uncertainty for blade in body.blades if blade.measured]
    return form.made(
        "Change the whole list",
        [
            form.text("title", "What it is", body.title, required=True),
            form.pick("unit", "Marked in", [(each, each) for each in MARKED_UNITS], unit),
            form.words("blades", "Blades, as they are marked", " ".join(marked)),
            form.text("missing", "Missing or worn out", " ".join(gone)),
            form.amount("uncertainty", "Of a blade as marked", _or_usual(plain, "0.003 mm", unit), unit=unit),
            form.amount(
                "measured_uncertainty",
                "Of a measured blade",
                _or_usual(measured, "0.001 mm", unit),
                unit=unit,
            ),
            form.hidden("unit_shown", unit),
            form.tick("plugs", "They are plug gauges", ticked=body.plugs),
            form.text("reason", "Why"),
        ],
        button="Change it",
    )


def _or_usual(uncertainties: list[float], usual: str, unit: str) -> str:
    return as_typed(max(uncertainties), unit) if uncertainties else usual_in(family_of_unit(unit), usual)


def _measure(order: Order) -> Made | Question:
    body = set_named(order.hands.shop.state, order.code)
    marking = order.wanted("blade", "The blade")
    found = measured_blade(
        body,
        marking,
        order.wanted("thickness", "The thickness"),
        uncertainty=order.optional("uncertainty") or "0.001 mm",
        answers=order.answers,
    )
    if isinstance(found, Question):
        return found
    changed, answered = found
    entry = order.hands.shop.entry(changed, person=order.person, entry_id=order.entry_id)
    answers = [answer_entry(each, build=None, entry_id=entry.id, person=order.person) for each in answered]
    measured = small(blade_named(changed, marking).thickness, _unit_of(changed))
    return Made([entry, *answers], f"Blade {marking} of {order.code} is {measured}.")


def _apart(order: Order) -> Made:
    body = set_named(order.hands.shop.state, order.code)
    marking = order.wanted("blade", "The blade")
    back = order.sent.get("state") == BACK
    if blade_named(body, marking).available is back and not order.is_sent_again:
        state = "there" if back else "missing"
        raise UnclearFormError(f"Blade {marking} is {state} already", "choose another blade")
    changed = set_apart(body, marking, available=back)
    changed = changed.model_copy(update={"reason": order.optional("reason")})
    entry = order.hands.shop.entry(changed, person=order.person, entry_id=order.entry_id)
    return Made([entry], f"Blade {marking} of {order.code} is {'there again' if back else 'set apart'}.")


def _change(order: Order) -> Made:
    shown = order.sent.get("unit_shown")
    body = blade_set_from(
        order.code,
        order.wanted("title", "What it is"),
        markings_in(order.sent.get("blades")),
        unit=order.sent.get("unit") or "mm",
        uncertainty=in_unit_shown(order.optional("uncertainty"), shown) or "0.003 mm",
        measured_uncertainty=in_unit_shown(order.optional("measured_uncertainty"), shown) or "0.001 mm",
        missing=markings_in(order.sent.get("missing")),
        plugs=bool(order.sent.get("plugs")),
    )
    body = body.model_copy(update={"reason": order.optional("reason")})
    entry = order.hands.shop.entry(body, person=order.person, entry_id=order.entry_id)
    return Made([entry], f"{order.code}: {set_words(body)}.")


ROUTES = [
    shop_route(
        "/shop/blades/{code:path}",
        "blade-set",
        _blade_set,
        {"measure": _measure, "apart": _apart, "change": _change},
    )
]
