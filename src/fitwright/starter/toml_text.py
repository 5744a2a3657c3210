"""Blocks as TOML text, with the comments that say what to replace."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from fitwright.starter import amounts
from fitwright.starter.blocks import (
    DimensionBlock,
    FitBlock,
    PartBlock,
    Section,
    StationBlock,
    TableBlock,
    Value,
)
from fitwright.starter.rules.rule import Bounds

REPLACE_RULE = "Rule of thumb until you type your manual's limit: add source, page, governs = true"
REPLACE_SIZE = "scaled from the bore or stroke: replace by yours"

_LONGEST_LIST = 90
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def quoted(text: str) -> str:
    """A TOML basic string; answers are printable, so only two characters need an escape."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def section_lines(section: Section, units: str) -> Iterable[str]:
    """All lines of a section, its blocks parted by blank lines."""
    yield f"# ==== {section.title} {'=' * max(4, 90 - len(section.title))}"
    yield from (f"# {line}" for line in section.comment)
    blocks = [
        *(station_lines(station) for station in section.stations),
        *(part_lines(part) for part in section.parts),
        *(dimension_lines(dimension, units) for dimension in section.dimensions),
        *(fit_lines(fit, units) for fit in section.fits),
        *(table_lines(table) for table in section.tables),
    ]
    for block in blocks:
        yield ""
        yield from block


def station_lines(station: StationBlock) -> Iterable[str]:
    """A station with its caution and eye checks."""
    yield _header("stations", station.id)
    yield f"title = {quoted(station.title)}"
    if station.caution:
        yield f"caution = {quoted(station.caution)}"
    for name, question in station.eye_checks:
        yield f"[[stations.{station.id}.eye_checks]]"
        yield f"id = {quoted(f'{station.id}.{name}')}"
        yield f"question = {quoted(question)}"


def part_lines(part: PartBlock) -> Iterable[str]:
    """A position with its material."""
    yield _header("parts", part.family.key(part.key))
    yield f"title = {quoted(part.family.text(part.title))}"
    yield f"material = {quoted(part.material)}"
    if part.one_time_use:
        yield "one_time_use = true"


def dimension_lines(dimension: DimensionBlock, units: str) -> Iterable[str]:
    """A dimension: where it is taken, with what, and its limits if it has any of its own."""
    fill = dimension.family.text
    yield from (f"# {line}" for line in dimension.comment)
    yield _header("dimensions", dimension.family.key(dimension.key))
    yield f"title = {quoted(fill(dimension.title))}"
    if dimension.part is not None:
        yield f"part = {quoted(fill(dimension.part))}"
    yield from _list("through", (fill(name) for name in dimension.through))
    yield f"sense = {quoted(dimension.sense)}"
    if dimension.nominal is not None:
        remark = f"  # {REPLACE_SIZE}" if dimension.nominal_guessed else ""
        yield f"nominal = {quoted(amounts.size(dimension.nominal, units))}{remark}"
    yield from _list("planes", dimension.planes)
    yield from _list("angles", dimension.angles)
    yield from _list("places", dimension.places)
    if dimension.condition is not None:
        yield f"condition = {quoted(dimension.condition)}"
    yield from _list("instrument", dimension.instrument)
    yield f"station = {quoted(dimension.station)}"
    yield from _list("plausible", (amounts.size(value, units) for value in dimension.plausible or ()))
    yield from _judgement(dimension.critical, dimension.judged)
    yield from _limits(dimension.rules, dimension.no_rule, units)


def fit_lines(fit: FitBlock, units: str) -> Iterable[str]:
    """A fit: how it is computed, how it is judged, its limits."""
    fill = fit.family.text
    yield from (f"# {line}" for line in fit.comment)
    yield _header("fits", fit.family.key(fit.key))
    yield f"title = {quoted(fill(fit.title))}"
    yield f"kind = {quoted(fit.kind)}"
    yield f"sense = {quoted(fit.sense)}"
    for name, text in (("by_parts", fit.by_parts), ("fitted", fit.fitted), ("form_of", fit.form_of)):
        if text is not None:
            yield f"{name} = {quoted(fill(text))}"
    if fit.governing is not None:
        yield f"governing_route = {quoted(fit.governing)}"
    yield from _inline("compression", fit.compression, fit)
    yield from _inline("centring", fit.centring, fit)
    grown = (f"{sign} {amounts.length(size, units)} {fill(part)}" for sign, size, part in fit.growth)
    yield from _list("growth", grown)
    yield f"station = {quoted(fit.station)}"
    yield from _judgement(fit.critical, fit.judged)
    if fit.removes_metal:
        yield "removes_metal = true"
    yield from _limits(fit.rules, fit.no_rule, units)


def table_lines(table: TableBlock) -> Iterable[str]:
    """A table of any section."""
    yield from (f"# {line}" for line in table.comment)
    yield _header(table.section, table.family.key(table.key)) if table.key else f"[{table.section}]"
    for key, value in table.values.items():
        remark = f"  # {table.remarks[key]}" if key in table.remarks else ""
        yield f"{key} = {_value(value, table)}{remark}"
    yield from (f"# {line}" for line in table.to_fill)


def _value(value: Value, table: TableBlock) -> str:
    if isinstance(value, str):
        return quoted(table.family.text(value))
    if isinstance(value, tuple):
        return _listed([_value(each, table) for each in value])
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {_value(inner, table)}' for key, inner in value.items())} }}"
    return str(value).lower() if isinstance(value, bool) else str(value)


def _listed(values: list[str]) -> str:
    """A list on one line, or where that grows long, one value a line."""
    line = f"[{', '.join(values)}]"
    if len(line) <= _LONGEST_LIST:
        return line
    return "[\n" + "".join(f"  {value},\n" for value in values) + "]"


def _header(table: str, key: str) -> str:
    return f"[{table}.{key}]" if _BARE_KEY.fullmatch(key) else f"[{table}.{quoted(key)}]"


def _list(name: str, values: Iterable[str]) -> Iterable[str]:
    texts = [quoted(value) for value in values]
    if len(texts) == 1 and name == "instrument":
        yield f"{name} = {texts[0]}"
    elif texts:
        yield f"{name} = [{', '.join(texts)}]"


def _inline(name: str, members: Mapping[str, str], fit: FitBlock) -> Iterable[str]:
    if members:
        pairs = (f"{key} = {quoted(fit.family.text(value))}" for key, value in members.items())
        yield f"{name} = {{ {', '.join(pairs)} }}"


def _judgement(critical: bool, judged: str | None) -> Iterable[str]:  # noqa: FBT001 - two facts, one place
    if critical:
        yield 'class = "critical"'
    if judged is not None:
        yield f"judged = {quoted(judged)}"


def _limits(rules: tuple[Bounds, ...], no_rule: str | None, units: str) -> Iterable[str]:
    if rules:
        yield "limits = ["
        yield f"    # {REPLACE_RULE}"
        yield from (f"    {{ {_limit(rule, units)} }}," for rule in rules)
        yield "]"
    elif no_rule is not None:
        yield f"# No rule of thumb: {no_rule}. Type your manual's limit:"
        yield '# limits = [{ source = "manual", at = "p.", lower = "", upper = "", governs = true }]'


def _limit(rule: Bounds, units: str) -> str:
    lower, upper = rule.written(units)
    words = ['source = "rule_of_thumb"']
    words += [f"{name} = {quoted(text)}" for name, text in (("lower", lower), ("upper", upper)) if text]
    words += ['applies_to = "used"'] if rule.used else []
    return ", ".join([*words, f"depends_on = {quoted(rule.depends_on)}"])
