"""Tables of sizes and of what they rest on: open points, fits, parts, readings' gauges, decisions."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.results import FitVerdict
from fitwright.bench.entry_words import said, title_of
from fitwright.formats.subjects.told import Row, Told, plain, typed, yes
from fitwright.model.dimension import Sense
from fitwright.records import kinds
from fitwright.units.families import shop_unit
from fitwright.units.senses import DIMENSION_OF


def open_points(told: Told) -> Iterator[Row]:
    """The rows of: open points."""
    for each in told.standing.open_points:
        yield each.kind.value, each.subject, each.title, each.words, each.because or ""


def fits(told: Told) -> Iterator[Row]:
    """The rows of: fits."""
    for found in (*told.assessment.verdicts.values(), *told.assessment.unlimited.values()):
        dimension = DIMENSION_OF[Sense(found.sense)]
        sizes = [abs(bound.limit) for bound in found.bounds] + [abs(found.value or 0.0)]
        unit = shop_unit(dimension, told.family, max(sizes))
        low, high = found.interval
        numbers = (found.value, found.standard_uncertainty, low, high, *_limits(found), found.in_hand)
        yield (
            found.id,
            found.name,
            found.station or "",
            found.limit_class,
            found.verdict.value,
            found.reason.value if found.reason is not None else "",
            unit,
            *(told.number(each, unit, dimension) for each in numbers),
            found.source_kind or "",
            next((bound.place_in_source or "" for bound in found.bounds if bound.governs), ""),
        )
        for hot in found.hot:
            numbers = (hot.value, hot.standard_uncertainty, *hot.interval, None, None, None)
            hot_words = "judged" if hot.judged else "estimated, not judged"
            title = f"{found.name}, {hot.title}"
            amounts = (told.number(each, unit, dimension) for each in numbers)
            yield (
                found.id,
                title,
                found.station or "",
                found.limit_class,
                hot_words,
                "",
                unit,
                *amounts,
                "",
                "",
            )


def _limits(found: FitVerdict) -> tuple[float | None, float | None]:
    cold = [each for each in found.bounds if each.temperature_case is None]
    bounds = [each for each in cold if each.governs] or cold
    sides = {each.side: each.limit for each in bounds}
    return sides.get("lower"), sides.get("upper")


def parts(told: Told) -> Iterator[Row]:
    """The rows of: parts."""
    state = told.bench.build
    for position in told.bench.sheet.parts.values():
        code = state.occupant(position.id)
        held = state.parts.get(code or "")
        body = held.body if held is not None else None
        yield (
            position.id,
            position.title,
            code or "",
            body.title if body is not None else "",
            (body.serial or "") if body is not None else "",
            (body.origin or "") if body is not None else "",
            yes(body.used) if body is not None else "",
        )


def eye_checks(told: Told) -> Iterator[Row]:
    """The rows of: eye checks."""
    for entry, body in told.bench.build.eye_checks:
        title = title_of(told.bench, body.check)
        yield str(entry.seq), body.check, title, yes(body.answer), body.words or "", entry.person or ""


def stated(told: Told) -> Iterator[Row]:
    """The rows of: stated."""
    for each in told.bench.build.stated_sizes.values():
        body = each.body
        tolerance = body.tolerance
        yield (
            str(each.entry.seq),
            each.dimension or each.feature,
            each.place,
            *typed(body.size),
            *(typed(tolerance) if tolerance is not None else ("", "")),
            body.stated_by,
            yes(each.effective),
        )


def instruments(told: Told) -> Iterator[Row]:
    """The rows of: instruments."""
    for code, held in told.bench.shop.instruments.items():
        body, calibration = held.body, told.bench.shop.calibration_of(code)
        known = calibration.body if calibration is not None else None
        yield (
            code,
            body.title,
            body.type,
            body.unit,
            plain(body.resolution),
            plain(body.repeatability),
            plain(known.standard_uncertainty if known is not None else body.calibration_uncertainty),
            (known.date or "") if known is not None else "",
            (known.certificate or "") if known is not None else "",
        )


def settings(told: Told) -> Iterator[Row]:
    """The rows of: settings."""
    for code, held in told.bench.shop.settings.items():
        body = held.body
        size = typed(body.size) if body.size is not None else ("", "")
        zero = typed(body.zero) if body.zero is not None else ("", "")
        yield code, body.instrument, body.master or "", body.against or "", *size, *zero


def people(told: Told) -> Iterator[Row]:
    """The rows of: people."""
    for code, held in told.bench.shop.people.items():
        yield code, held.body.name, held.body.role or ""


def pressures(told: Told) -> Iterator[Row]:
    """The rows of: pressures."""
    for entry, body in told.bench.build.pressure_readings:
        zero = typed(body.zero) if body.zero is not None else ("", "")
        amounts = (*typed(body.angular_speed), *typed(body.oil_temperature), *typed(body.gauge_reading))
        yield str(entry.seq), *amounts, *zero, body.instrument or "", body.step or ""


def decisions(told: Told) -> Iterator[Row]:
    """The rows of: decisions."""
    wanted = (
        kinds.LimitAdopted,
        kinds.NotMeasured,
        kinds.NotInThisJob,
        kinds.Choice,
        kinds.QuestionAnswered,
        kinds.Withdrawal,
        kinds.Note,
    )
    for entry, body in told.bench.build.ledger.in_order():
        if isinstance(body, wanted):
            words = body.text if isinstance(body, kinds.Note) else said(body, told.bench)
            yield str(entry.seq), entry.kind, words, entry.person or "", entry.committed_at
