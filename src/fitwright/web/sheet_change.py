"""The form for common changes of a sheet's text: limits and their source, places, a nominal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from fitwright.bench.starting import code_from
from fitwright.formats.sheet.changing import (
    Changeable,
    Places,
    add_source,
    changeable,
    set_nominal,
    set_places,
)
from fitwright.formats.sheet.editing import NewLimit, set_limit
from fitwright.model.limit import SourceKind
from fitwright.model.sheet import Sheet
from fitwright.web.numbers import whole_number
from fitwright.web.writing import Sent, UnclearFormError

NEW: Final = "new"
"""Stands for a limit or a source that the sheet does not have yet."""


@dataclass(frozen=True, slots=True)
class SubjectOption:
    """A fit or dimension to change."""

    key: str
    title: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class SubjectGroup:
    """Fits, or dimensions."""

    title: str
    subjects: tuple[SubjectOption, ...]


@dataclass(frozen=True, slots=True)
class SourceOption:
    """A source to choose, or a kind of source."""

    value: str
    title: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class LimitFields:
    """One limit as the form shows it; `use` says where it holds, if not for new parts and cold."""

    number: str
    source: str
    use: str
    at: str
    lower: str
    upper: str
    governs: bool


@dataclass(frozen=True, slots=True)
class ChangeForm:
    """What can be changed of the subject chosen; nothing yet where none is."""

    groups: tuple[SubjectGroup, ...]
    key: str
    limits: tuple[LimitFields, ...]
    sources: tuple[SourceOption, ...]
    kinds: tuple[SourceOption, ...]
    is_dimension: bool
    nominal: str
    planes: str
    angles: str
    places: str


def change_form(text: str, key: str, sheet: Sheet) -> ChangeForm:
    """The form for one subject of a text, as that text has it."""
    every = changeable(text)
    chosen = next((each for each in every if each.key == key), None)
    table = chosen.table if chosen is not None else {}
    return ChangeForm(
        groups=tuple(_group(title, section, every, key) for title, section in _SECTIONS),
        key=key if chosen is not None else "",
        limits=tuple(_limit(sheet, number, limit) for number, limit in enumerate(table.get("limits", ()))),
        sources=tuple(SourceOption(each.id, each.title, chosen=False) for each in sheet.sources.values()),
        kinds=tuple(SourceOption(each.value, each.value, chosen=False) for each in SourceKind),
        is_dimension=chosen is not None and chosen.section == "dimensions",
        nominal=str(table.get("nominal", "")),
        planes=", ".join(table.get("planes", ())),
        angles=", ".join(table.get("angles", ())),
        places=", ".join(table.get("places", ())),
    )


def changed(text: str, form: Sent) -> str:
    """The text with the change that a form asks for.

    Raises
    ------
    UnclearFormError
        If it does not say what is to be changed.
    FormatError
        If the text is unsound, or would become so.
    """
    key, what = form.get("subject"), form.get("do").partition(":")[2]
    subject = next((each for each in changeable(text) if each.key == key), None)
    if subject is None:
        raise UnclearFormError("No fit or dimension is chosen", "choose what is to be changed")
    if what == "nominal":
        return set_nominal(text, key, form.get("nominal") or None)
    if what == "places":
        return set_places(text, key, _places(form))
    return _with_limit(text, subject, what, form)


_SECTIONS: Final = (("Fits", "fits"), ("Dimensions", "dimensions"))


def _group(title: str, section: str, every: tuple[Changeable, ...], key: str) -> SubjectGroup:
    subjects = (each for each in every if each.section == section)
    return SubjectGroup(
        title, tuple(SubjectOption(each.key, each.title, each.key == key) for each in subjects)
    )


def _limit(sheet: Sheet, number: int, limit: Mapping[str, Any]) -> LimitFields:
    source = sheet.sources.get(str(limit.get("source", "")))
    uses = ("for used parts" if limit.get("applies_to") == "used" else "", _case(sheet, limit))
    return LimitFields(
        number=str(number),
        source=f"{source.title} ({source.kind.value})" if source is not None else "",
        use=", ".join(use for use in uses if use),
        at=str(limit.get("at", "")),
        lower=str(limit.get("lower", "")),
        upper=str(limit.get("upper", "")),
        governs=bool(limit.get("governs", False)),
    )


def _case(sheet: Sheet, limit: Mapping[str, Any]) -> str:
    case = sheet.temperature_cases.get(str(limit.get("temperature_case", "")))
    return f"at {case.title}" if case is not None else ""


def _places(form: Sent) -> Places:
    def names(field: str) -> tuple[str, ...]:
        return tuple(each.strip() for each in form.get(field).split(",") if each.strip())

    return Places(names("planes"), names("angles"), names("places"))


def _with_limit(text: str, subject: Changeable, number: str, form: Sent) -> str:
    def field(name: str) -> str:
        return form.get(f"limit-{number}-{name}")

    before = _before(subject, number)
    source = str(before["source"]) if before else field("source")
    if source == NEW:
        text, source = _with_source(text, form)
    if not source:
        raise UnclearFormError("No source is chosen", "say who states the limit")
    limit = NewLimit(
        source=source,
        lower=field("lower") or None,
        upper=field("upper") or None,
        at=field("at") or None,
        governs=bool(field("governs")),
        applies_to=str(before.get("applies_to", "new")) if before else field("applies_to") or "new",
        temperature_case=before.get("temperature_case"),
        depends_on=before.get("depends_on"),
        note=before.get("note"),
    )
    return set_limit(text, subject.key, limit)


def _before(subject: Changeable, number: str) -> Mapping[str, Any]:
    """The limit that is changed, as it stands; nothing for a new one."""
    limits = subject.table.get("limits", ())
    if number == NEW:
        return {}
    index = whole_number(number)
    if index is None or index >= len(limits):
        raise UnclearFormError("This limit is not in the text any more", "choose the fit or dimension again")
    found: Mapping[str, Any] = limits[index]
    return found


def _with_source(text: str, form: Sent) -> tuple[str, str]:
    """The text with the source that the form describes, and its id."""
    title, kind = form.get("source-title"), form.get("source-kind")
    if not title:
        raise UnclearFormError("The new source has no title", "name the manual, leaflet or rule")
    code = code_from(title, ()).replace("-", "_")
    return add_source(text, code, title=title, kind=kind, edition=form.get("source-edition") or None), code
