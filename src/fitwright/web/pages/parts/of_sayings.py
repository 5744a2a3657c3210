"""The forms about what a person says without a gauge: stated sizes, eye checks, what is left out, notes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.bench import statements
from fitwright.bench.asking import settle
from fitwright.bench.entry_words import title_of
from fitwright.bench.photos import NOTEBOOK_PAGE, about
from fitwright.model.dimension import Dimension
from fitwright.model.slips import Question
from fitwright.records.kinds import Body
from fitwright.units import echo, parse_quantity
from fitwright.units.families import shop_unit
from fitwright.units.senses import DIMENSION_OF
from fitwright.web.entering.controls import (
    Asking,
    Control,
    amount,
    by_station,
    hidden,
    one,
    options,
    select,
    text,
    words,
)
from fitwright.web.entering.kinds import FormKind
from fitwright.web.forms import Option, OptionGroup
from fitwright.web.writing import UnclearFormError

STATED_BY = ("drawing", "box label", "certificate", "machinist", "parts maker's leaflet", "another build")
"""Who usually states a size."""


def _dimensions(asking: Asking, name: str, label: str) -> Control:
    names = {each.id: each.title for each in asking.bench.sheet.dimensions.values()}
    return select(asking, name, label, by_station(asking, names, {asking.get(name)}))


def _stated_first(asking: Asking) -> tuple[Control, ...]:
    return (_dimensions(asking, "dimension", "Size"),)


def _dimension(asking: Asking) -> Dimension:
    return asking.bench.dimension(asking.get("dimension"))


def _stated_controls(asking: Asking) -> tuple[Control, ...]:
    found = _dimension(asking)
    unit = unit_of(asking, found)
    places = {"whole": "the whole size"} | {each.id: _place(each.id) for each in found.places}
    by = tuple(Option(name, name, chosen=False) for name in STATED_BY)
    return (
        hidden("dimension", found.id),
        amount(asking, "size", "Size", unit),
        amount(asking, "tolerance", "Tolerance, either way", unit, "May stay empty."),
        Control("about", "by", "Who states it", asking.get("by"), groups=(OptionGroup("Usually", by),)),
        select(
            asking, "place", "Where", options("Places", places, {asking.get("place") or "whole"}), empty=""
        ),
        *_kin_of(asking, found),
    )


def unit_of(asking: Asking, dimension: Dimension) -> str:
    """The unit in which this reader types a size."""
    size = dimension.nominal.si if dimension.nominal is not None else 0.0
    return shop_unit(DIMENSION_OF[dimension.sense], asking.family, size or 1.0)


def _place(name: str) -> str:
    return "the whole size" if name == "whole" else name.replace("/", " ")


def _kin_of(asking: Asking, found: Dimension) -> Iterator[Control]:
    """The same size on parts of the same kind: one label is on a box of many."""
    kin = {
        each.id: each.title
        for each in asking.bench.sheet.dimensions.values()
        if each.id != found.id and _is_alike(each, found)
    }
    if kin:
        hint = "One label for a box of many: tick all that it holds for."
        groups = tuple(options("The same size of", kin, asking.ticked("also")))
        yield Control("ticks", "also", "Also stated for", hint=hint, groups=groups)


def _is_alike(one: Dimension, other: Dimension) -> bool:
    """Whether two sizes are of one kind: of one family, or the same feature of parts of one size."""
    if one.family is not None and one.family == other.family:
        return True
    if one.nominal is None or other.nominal is None:
        return False
    return (one.feature, one.station, one.nominal.si) == (other.feature, other.station, other.nominal.si)


def _stated(asking: Asking) -> Sequence[Body]:
    if not asking.get("size"):
        raise UnclearFormError("No size was typed", "type the size that is stated")
    unit = unit_of(asking, _dimension(asking))
    return tuple(
        statements.stated_size(
            asking.bench,
            name,
            asking.get("size"),
            by=asking.get("by"),
            tolerance=asking.get("tolerance"),
            place=asking.get("place") or "whole",
            unit=unit,
        )
        for name in dict.fromkeys((asking.get("dimension"), *asking.ticked("also")))
    )


def _stated_echo(asking: Asking) -> str:
    """The size in both units; and the question that it raises, if it looks like a slip."""
    found = _dimension(asking)
    quantity = parse_quantity(
        asking.get("size"), default_unit=unit_of(asking, found), dimension=DIMENSION_OF[found.sense]
    )
    settled = settle(asking.bench, found, None, quantity, {})
    doubt = f" {settled.text}" if isinstance(settled, Question) else ""
    return f"{echo(quantity)}.{doubt}"


def _eye_controls(asking: Asking) -> tuple[Control, ...]:
    checks = {each.id: each.question for each in statements.eye_checks_of(asking.bench).values()}
    return (
        select(asking, "check", "Eye check", by_station(asking, checks, {asking.get("check")})),
        one(asking, "answer", "Answer", {"yes": "Yes", "no": "No"}),
        words(asking, "words", "In words", "What was seen or felt. May stay empty."),
        *_photos(asking),
    )


def _photos(asking: Asking) -> Iterator[Control]:
    """The photos of this build, of which one may show what was seen."""
    found = {
        held.body.digest: held.body.caption or f"photo {held.body.digest[:8]}"
        for held in reversed(asking.bench.build.photos)
    }
    if found:
        groups = options("Photos", found, {asking.get("photo")})
        yield select(asking, "photo", "Photo of it", groups, empty="none")


def _eye(asking: Asking) -> Sequence[Body]:
    check, answer, photo = asking.get("check"), asking.get("answer"), asking.get("photo")
    if not check:
        raise UnclearFormError("No eye check is chosen", "choose the one that is answered")
    if answer not in ("yes", "no"):
        raise UnclearFormError("No answer is chosen", "say yes or no")
    if photo and photo not in {held.body.digest for held in asking.bench.build.photos}:
        raise UnclearFormError("There is no such photo in this build", "choose one of those offered")
    said = statements.eye_check(
        asking.bench, check, answer=answer == "yes", words=asking.get("words"), photo=photo
    )
    return (said,)


def _eye_caution(asking: Asking) -> str:
    """The caution of the station at which one looks: that is where the hands are."""
    stations = asking.bench.sheet.stations.values()
    here = (each for each in stations if any(check.id == asking.get("check") for check in each.eye_checks))
    return next((each.caution or "" for each in here), "")


def _not_measured_controls(asking: Asking) -> tuple[Control, ...]:
    bench = asking.bench
    names = {each.id: each.title for each in bench.sheet.dimensions.values()}
    names |= {each.id: f"{each.title} (fit)" for each in bench.sheet.fits.values()}
    names |= {each.id: each.question for each in statements.eye_checks_of(bench).values()}
    return (
        select(asking, "subject", "What", by_station(asking, names, {asking.get("subject")})),
        words(asking, "because", "Because"),
    )


def _not_measured(asking: Asking) -> Sequence[Body]:
    if not asking.get("subject"):
        raise UnclearFormError("Nothing is chosen", "choose what is not measured")
    return (statements.not_measured_of(asking.bench, asking.get("subject"), asking.get("because")),)


def _not_in_job_controls(asking: Asking) -> tuple[Control, ...]:
    sheet = asking.bench.sheet
    named = [name.split(".") for name in (*sheet.dimensions, *sheet.fits)]
    begin = dict.fromkeys(".".join(steps[:length]) for length in (1, 2) for steps in named)
    lines = tuple(Option(name, title_of(asking.bench, name), chosen=False) for name in begin)
    hint = "A name leaves out all that begins with it: “pump” leaves out “pump.width”."
    return (
        Control(
            "about",
            "subject",
            "What begins with",
            asking.get("subject"),
            hint,
            groups=(OptionGroup("", lines),),
        ),
        text(asking, "reason", "Why"),
    )


def _not_in_job(asking: Asking) -> Sequence[Body]:
    if not asking.get("subject"):
        raise UnclearFormError("Nothing is named", "type how its name begins")
    return (statements.not_in_this_job(asking.bench, asking.get("subject"), asking.get("reason")),)


def about_control(asking: Asking) -> Control:
    """What a note or a photo is about: a station, a fit, a part, a sitting or a notebook page."""
    bench = asking.bench
    names = {each.id: each.title for each in bench.sheet.stations.values()}
    names |= {each.id: each.title for each in bench.sheet.parts.values()}
    names |= {code: held.body.title for code, held in bench.build.parts.items()}
    names |= {each.id: each.title for each in bench.sheet.fits.values()}
    names |= {code: f"sitting of {held.body.measured_by}" for code, held in bench.build.sittings.items()}
    names |= {f"{NOTEBOOK_PAGE} ": "and its number"}
    lines = tuple(Option(name, label, chosen=False) for name, label in names.items())
    hint = "A station, fit, part, sitting or step, or “notebook page 12”. Empty: the build."
    return Control(
        "about", "subject", "What it is about", asking.get("subject"), hint, groups=(OptionGroup("", lines),)
    )


def _note_controls(asking: Asking) -> tuple[Control, ...]:
    return (words(asking, "text", "Note"), about_control(asking))


def _note(asking: Asking) -> Sequence[Body]:
    subject = about(asking.bench, asking.get("subject"))
    return (statements.note_of(asking.get("text"), subject),)


STATED = FormKind(
    "stated",
    "Stated size",
    "A size that somebody states",
    "Enter it",
    _stated_controls,
    _stated,
    first=_stated_first,
    is_ready=lambda asking: asking.get("dimension") in asking.bench.sheet.dimensions,
    echo=_stated_echo,
    lead=lambda asking: (
        f"{title_of(asking.bench, asking.get('dimension'))}. It never counts as a reading."
        if asking.get("dimension")
        else "A drawing, a box label, a certificate. It never counts as a reading."
    ),
)
EYE = FormKind(
    "eye",
    "Eye check",
    "The answer to an eye check",
    "Enter it",
    _eye_controls,
    _eye,
    caution=_eye_caution,
    suppose=None,
)
NOT_MEASURED = FormKind(
    "not-measured",
    "Not measured, because",
    "Not measured, because",
    "Enter it",
    _not_measured_controls,
    _not_measured,
    suppose=None,
)
NOT_IN_JOB = FormKind(
    "not-in-job",
    "Not in this job",
    "Not in this job",
    "Leave it out",
    _not_in_job_controls,
    _not_in_job,
    suppose=None,
)
NOTE = FormKind("note", "Note", "A note", "Note it", _note_controls, _note, suppose=None)
OF_SAYINGS = (STATED, EYE, NOT_MEASURED, NOT_IN_JOB, NOTE)
