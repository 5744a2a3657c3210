"""A text held against the sheet of a build: problems, differences, what would fall out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from fitwright.assess.not_on_sheet import not_on_sheet
from fitwright.bench.context import Bench
from fitwright.bench.revising import ChangedSenseError, check_senses
from fitwright.formats.sheet.diff import differences
from fitwright.model.sheet import Sheet
from fitwright.web.sheet_text import Findings, drawn, looked_at


@dataclass(frozen=True, slots=True)
class Lost:
    """Something recorded that no verdict would rest on any more."""

    seq: int
    words: str
    where: str
    why: str


@dataclass(frozen=True, slots=True)
class Looked:
    """What looking at a text found; `stands_against` says why a build cannot take it over."""

    findings: Findings
    differences: tuple[str, ...]
    lost: tuple[Lost, ...]
    stands_against: str
    same_name: str
    drawing: Markup


def look(bench: Bench, text: str) -> Looked:
    """A text held against what is open on the bench."""
    sheet, findings = looked_at(text)
    if sheet is None:
        return Looked(findings, (), (), "", "", Markup())
    found = differences(bench.sheet, sheet)
    revision = sheet.engine.revision
    return Looked(
        findings=findings,
        differences=found,
        lost=tuple(_lost(bench, sheet)) if found else (),
        stands_against=_against(bench, sheet),
        same_name=revision if found and revision == bench.sheet.engine.revision else "",
        drawing=drawn(text),
    )


def _against(bench: Bench, sheet: Sheet) -> str:
    try:
        check_senses(bench, sheet)
    except ChangedSenseError as error:
        return str(error)
    return ""


def _lost(bench: Bench, sheet: Sheet) -> Iterator[Lost]:
    """What is in a verdict now, and would be in none."""
    already = {each.entry for each in not_on_sheet(bench.sheet, bench.build)}
    for each in not_on_sheet(sheet, bench.build):
        if each.entry not in already:
            yield Lost(each.seq, each.words, f"{each.dimension} {each.place}", each.why)
