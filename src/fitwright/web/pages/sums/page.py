"""One quick sum: a form that is answered by its own address, with its picture and its working."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import ClassVar

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from fitwright.records.projection import ShopState
from fitwright.sums.blades import BLADE
from fitwright.sums.declaration import Sum
from fitwright.sums.errors import SumError, UnknownSumError
from fitwright.sums.exchange import as_object, schema
from fitwright.sums.forms import Several
from fitwright.sums.plain import as_text
from fitwright.sums.registry import sum_named
from fitwright.sums.running import answer
from fitwright.sums.typed import with_units
from fitwright.units import format_value
from fitwright.units.families import Family
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, hands_of
from fitwright.web.own_units import own_family, remember_family
from fitwright.web.pages.choices import UNIT_LABELS, Choice
from fitwright.web.pages.problem import problem_page
from fitwright.web.pages.sums.answering import Figures, figures_of
from fitwright.web.pages.sums.fields import FormParts, Problems, form_of, words_of_key
from fitwright.web.pages.sums.pictures import picture_of
from fitwright.web.pages.sums.query import Filled, example_inputs, filled, inputs_of, sum_address
from fitwright.web.rendering import page
from fitwright.web.writing import capital

NOT_JSON = 422


@dataclass(frozen=True, slots=True)
class Wanted:
    """An input that is still missing, and what to give."""

    label: str
    text: str


@dataclass(frozen=True, slots=True)
class BladeSet:
    """A set of blades of this shop, to be taken as a whole: its code, its name, its blades as typed."""

    code: str
    title: str
    blades: str


@dataclass(frozen=True, slots=True)
class AnswerPart:
    """What the sum says to what was typed; `state` is empty, wanting, refused or answered."""

    state: str
    spoken: str
    wanted: tuple[Wanted, ...]
    problem: str
    figures: Figures | None
    picture: Markup
    address: str
    json_address: str
    text: str


@dataclass(frozen=True, slots=True)
class SumContext:
    """The page of a sum; in answer to what is typed, only what follows from it."""

    template: ClassVar[str] = "sum.html"
    frame: Frame
    whole: bool
    name: str
    text: str
    family: Family
    units: tuple[Choice, ...]
    example: str
    clear: str
    form: FormParts
    names: frozenset[str]
    sets: tuple[BladeSet, ...]
    answer: AnswerPart


async def show(request: Request) -> Response:
    """Answer with the page of a sum, or with its JSON."""
    try:
        asked = sum_named(request.path_params["name"])
    except UnknownSumError as error:
        return problem_page(request, f"{capital(str(error))}.", "Choose one of the sums.", status=404)
    family, hands = own_family(request), hands_of(request)
    params = _with_set(request.query_params.multi_items(), hands.shop.state)
    form = filled(asked, params)
    if "json" in request.query_params:
        return await run_in_threadpool(_json, asked, form, family)
    whole = "hx-request" not in request.headers
    found = page(await run_in_threadpool(_context, hands, asked, form, family, whole))
    remember_family(found, request)
    return found


def _json(asked: Sum, form: Filled, family: Family) -> JSONResponse:
    inputs = with_units(asked, inputs_of(asked, form), family)
    if not inputs:
        return JSONResponse(schema(asked))
    try:
        return JSONResponse(as_object(answer(asked, inputs)))
    except SumError as error:
        return JSONResponse({"error": str(error)}, status_code=NOT_JSON)


def _context(hands: Hands, asked: Sum, form: Filled, family: Family, whole: bool) -> SumContext:  # noqa: FBT001
    inputs = with_units(asked, inputs_of(asked, form), family)
    found, problems = _answered(asked, inputs, family)
    return SumContext(
        frame=frame_of(
            hands,
            asked.title,
            "Quick sums",
            help_page="sums",
            live=False,
            styles=("sums.css",),
            scripts=("sums.js",),
        ),
        whole=whole,
        name=asked.name,
        text=asked.text,
        family=family,
        units=tuple(
            Choice(label, sum_address(asked.name, inputs, each), each == family)
            for each, label in UNIT_LABELS.items()
        ),
        example=sum_address(asked.name, example_inputs(asked), family),
        clear=sum_address(asked.name, {}, family),
        form=form_of(asked, form, problems, family),
        names=form.names,
        sets=tuple(_sets(hands.shop.state)) if _takes_set(asked) else (),
        answer=found,
    )


def _answered(asked: Sum, inputs: Mapping[str, object], family: Family) -> tuple[AnswerPart, Problems]:
    address = sum_address(asked.name, inputs, family)
    part = AnswerPart("empty", "", (), "", None, _example(asked.name, family), address, "", "")
    if not inputs:
        return part, Problems()
    try:
        result = answer(asked, inputs)
        picture = picture_of(asked, asked.read(inputs), result, family)
    except SumError as error:
        return _without(asked, part, error)
    figures = figures_of(asked, result, family)
    return replace(
        part,
        state="answered",
        spoken=". ".join(f"{each.name}: {each.number}" for each in figures.leads),
        figures=figures,
        picture=picture,
        json_address=sum_address(asked.name, inputs, family, "json"),
        text=as_text(asked, inputs, result, family),
    ), Problems()


def _without(asked: Sum, part: AnswerPart, error: SumError) -> tuple[AnswerPart, Problems]:
    """No answer: what is wrong stands at its fields, what is missing is listed."""
    problems = Problems.of(asked, error)
    wanted = tuple(Wanted(capital(words_of_key(place)), text) for place, text in problems.missing.items())
    alone = "" if problems.wrong or problems.missing else f"{capital(str(error))}."
    state = "refused" if problems.wrong or alone else "wanting"
    said = "; ".join(problems.wrong.values()) or alone
    return replace(part, state=state, spoken=said, wanted=wanted, problem=alone), problems


@cache
def _example(name: str, family: Family) -> Markup:
    """The picture of a sum with the numbers of its example."""
    asked = sum_named(name)
    return picture_of(asked, asked.read(asked.example), answer(asked, asked.example), family)


def example_picture(name: str, family: Family) -> Markup:
    """The picture that stands for a sum; drawn once."""
    return _example(name, family)


def _takes_set(asked: Sum) -> bool:
    """Whether an input takes a whole set of blades."""
    return any(isinstance(each.form, Several) and each.form.form is BLADE for each in asked.inputs)


def _sets(shop: ShopState) -> Iterator[BladeSet]:
    for code, held in shop.blade_sets.items():
        blades = [
            f"{format_value(each.thickness, 'mm', 4)} u {format_value(each.standard_uncertainty, 'mm', 4)}"
            for each in held.body.blades
            if each.available
        ]
        if blades and not held.body.plugs:
            yield BladeSet(code, held.body.title, "; ".join(blades))


def _with_set(params: list[tuple[str, str]], shop: ShopState) -> list[tuple[str, str]]:
    """A set of this shop that was asked for stands in the place of the blades typed."""
    wanted = next((value for name, value in params if name == "set"), None)
    blades = next((each.blades for each in _sets(shop) if each.code == wanted), None)
    if blades is None:
        return params
    fields = ("blades", "blade_set")
    return [pair for pair in params if pair[0] not in fields] + [(name, blades) for name in fields]
