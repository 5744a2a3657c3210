"""From tables to the model: fits with their routes, growth and special members."""

from __future__ import annotations

import math
import re
from typing import Final

from fitwright.formats.sheet.amounts import AmountReader
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.measured import limits_of
from fitwright.formats.sheet.members import MemberTexts
from fitwright.formats.sheet.subjects import CentringTable, CompressionTable, FitTable, PressTable
from fitwright.model.chain import read_chain
from fitwright.model.errors import ChainError
from fitwright.model.fit import (
    CentringSpec,
    ChainTerm,
    CompressionMembers,
    Fit,
    GrowthTerm,
    PressFit,
    Route,
    RouteName,
)

_GROWTH: Final = re.compile(r"\s*([+\-\u2212])\s*(\S.*?)\s+([a-z0-9_{}]+(?:\.[a-z0-9_{}]+)*)\s*")


def fit_of(table: FitTable, member: MemberTexts, amounts: AmountReader, findings: Findings) -> Fit:
    """A fit."""
    routes = _routes(table, member, findings)
    only_route = routes[0].name if len(routes) == 1 else None
    return Fit(
        id=member.id,
        title=member.text(table.title, "title"),
        kind=table.kind,
        sense=table.sense,
        station=member.optional(table.station, "station"),
        routes=routes,
        governing_route=table.governing_route or only_route,
        limits=limits_of(table.limits, table.sense, member, amounts),
        limit_class=table.limit_class,
        judged=table.judged,
        growth=_growth(table, member, amounts, findings),
        compression=_compression(table.compression, member),
        press=_press(table.press, member, amounts),
        centring=_centring(table.centring, member, amounts),
        form_of=member.optional(table.form_of, "form_of"),
        removes_metal=table.removes_metal,
        family=member.family,
        note=member.optional(table.note, "note"),
    )


def _routes(table: FitTable, member: MemberTexts, findings: Findings) -> tuple[Route, ...]:
    written = ((RouteName.BY_PARTS, "by_parts", table.by_parts), (RouteName.FITTED, "fitted", table.fitted))
    routes: list[Route] = []
    for name, key, text in written:
        if text is None:
            continue
        try:
            chain = read_chain(text)
        except ChainError as error:
            findings.add_text_error((*member.path, key), error)
            chain = ()  # the route is there, whatever it says
        filled = tuple(ChainTerm(term.coefficient, member.text(term.dimension, key)) for term in chain)
        routes.append(Route(name, filled))
    return tuple(routes)


def _growth(
    table: FitTable, member: MemberTexts, amounts: AmountReader, findings: Findings
) -> tuple[GrowthTerm, ...]:
    terms: list[GrowthTerm] = []
    for index, text in enumerate(table.growth):
        path = (*member.path, "growth", index)
        found = _GROWTH.fullmatch(text)
        if not found:
            findings.add(path, f'"{text}" is no length of a part', 'write "+ 84 mm pump.body"')
            continue
        length = amounts.si(found[2], "length", path, positive=True)
        terms.append(
            GrowthTerm(1.0 if found[1] == "+" else -1.0, length, member.text(found[3], "growth", index))
        )
    return tuple(terms)


def _compression(table: CompressionTable | None, member: MemberTexts) -> CompressionMembers | None:
    if table is None:
        return None
    names: dict[str, str] = {
        name: member.text(value, "compression", name)
        for name, value in table.model_dump(exclude_none=True).items()
    }
    return CompressionMembers(**names)


def _press(table: PressTable | None, member: MemberTexts, amounts: AmountReader) -> PressFit | None:
    if table is None:
        return None
    path = (*member.path, "press")
    inner = amounts.optional_si(table.shaft_inner_diameter, "length", (*path, "shaft_inner_diameter"))
    return PressFit(
        hub=member.text(table.hub, "press", "hub"),
        shaft=member.text(table.shaft, "press", "shaft"),
        hub_outer_diameter=amounts.si(
            table.hub_outer_diameter, "length", (*path, "hub_outer_diameter"), positive=True
        ),
        shaft_inner_diameter=0.0 if inner is None or math.isnan(inner) else inner,
        length=amounts.optional_si(table.length, "length", (*path, "length"), positive=True),
        friction=table.friction,
        hub_yield=amounts.optional_si(table.hub_yield, "pressure", (*path, "hub_yield"), positive=True),
        shaft_yield=amounts.optional_si(table.shaft_yield, "pressure", (*path, "shaft_yield"), positive=True),
    )


def _centring(table: CentringTable | None, member: MemberTexts, amounts: AmountReader) -> CentringSpec | None:
    if table is None:
        return None
    path = (*member.path, "centring")
    return CentringSpec(
        gaps=member.text(table.gaps, "centring", "gaps"),
        clearance=member.optional(table.clearance, "centring", "clearance"),
        face_heights=member.optional(table.face_heights, "centring", "face_heights"),
        face_positions={
            place: amounts.si(amount, "length", (*path, "face_positions", place))
            for place, amount in table.face_positions.items()
        },
        face_step=amounts.optional_si(table.face_step, "length", (*path, "face_step"), positive=True),
    )
