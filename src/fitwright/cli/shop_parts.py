"""Parts and what is done to them: fitted, taken out, reworked; sizes stated; eye checks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import OfBuild, Person, Reason, enter, making
from fitwright.cli.shop import DEFAULT_DATA, Data, opened

if TYPE_CHECKING:
    from fitwright.bench.context import Bench


def part(
    code: str,
    title: str,
    /,
    *,
    build: OfBuild = None,
    position: Annotated[str | None, Parameter(help="Where it sits in the engine; none for a spare.")] = None,
    serial: str | None = None,
    used: Annotated[bool, Parameter(negative="", help="It is used: wear limits apply.")] = False,
    origin: Annotated[str | None, Parameter(help="Where it comes from.")] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a part, with or without a position yet.

    Example: fitwright shop part shell-17 "Main shell, upper" --build corrie-five --serial 17
    """
    from fitwright.records.kinds import Part

    with making(data) as shop:
        if build is not None and position is not None:
            _check_position(shop.bench(build), position)
        body = Part(code=code, title=title, position=position, serial=serial, used=used, origin=origin)
        where = f" in {position}" if position else ""
        return enter(shop, body, f"Part {code}: {title}{where}", build=build, person=person)


def fit_part(
    build: str, part: str, position: str, /, *, person: Person = None, data: Data = DEFAULT_DATA
) -> int:
    """Enter that a part was put into a position; who sat there before is out.

    Readings taken through the parts that sat there no longer prove the fit, until they are chosen again.

    Example: fitwright shop fit-part corrie-five shell-17 main.4.shell_upper
    """
    from fitwright.records.kinds import Fitting

    with opened(data) as shop:
        bench = shop.bench(build)
        _check_position(bench, position)
        _check_part(bench, part)
        return enter(
            shop,
            Fitting(part=part, position=position),
            f"{part} is in {position}",
            build=build,
            person=person,
        )


def take_out(build: str, position: str, /, *, person: Person = None, data: Data = DEFAULT_DATA) -> int:
    """Enter that the part in a position was taken out.

    Example: fitwright shop take-out corrie-five main.4.shell_upper
    """
    from fitwright.cli.errors import UsageError
    from fitwright.records.kinds import TakingOut

    with opened(data) as shop:
        bench = shop.bench(build)
        _check_position(bench, position)
        inside = bench.build.occupant(position)
        if inside is None:
            raise UsageError(f"Nothing sits in {position}: it was taken out already.")
        body = TakingOut(part=inside, position=position)
        return enter(shop, body, f"{inside} is out of {position}", build=build, person=person)


def state(
    build: str,
    part: str,
    words: Annotated[str, Parameter(help="What was done.")],
    /,
    *,
    dimensions: Annotated[
        tuple[str, ...],
        Parameter(
            name="--dimension",
            negative="",
            consume_multiple=True,
            help="Dimensions whose readings it retires.",
        ),
    ],
    change: Literal["rework", "repair", "replacement"] = "rework",
    code: Annotated[str | None, Parameter(help="Its own code; else R1, R2, ...")] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a rework, repair or replacement, with the dimensions whose readings it retires.

    Example: fitwright shop state corrie-five crank "Journal 4 polished" --dimension main.4.journal
    """
    from fitwright.records.kinds import State

    with opened(data) as shop:
        bench = shop.bench(build)
        _check_part(bench, part)
        for name in dimensions:
            bench.dimension(name)
        number = 1 + sum(len(bench.build.changes(each)) for each in {*bench.build.parts, *bench.sheet.parts})
        body = State(
            code=code or f"R{number}", change=change, part=part, dimensions=tuple(dimensions), words=words
        )
        return enter(shop, body, f"{change} {body.code}: {words}", build=build, person=person)


def stated_size(
    build: str,
    dimension: str,
    size: str,
    /,
    *,
    by: Annotated[str, Parameter(help="Who states it: box label, drawing, certificate.")],
    tolerance: Annotated[str | None, Parameter(help="Either way.")] = None,
    place: str = "whole",
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a size that somebody states; it never counts as a reading.

    Example: fitwright shop stated-size corrie-five main.4.shell_upper.wall "2.2325 mm" --by "box label"
    """
    from fitwright.bench.taking import typed
    from fitwright.records.kinds import StatedSize
    from fitwright.units import parse_quantity
    from fitwright.units.senses import DIMENSION_OF

    with opened(data) as shop:
        bench = shop.bench(build)
        found = bench.dimension(dimension)
        kind = DIMENSION_OF[found.sense]
        body = StatedSize(
            dimension=found.id,
            feature=found.feature,
            place=place,
            members=bench.members(found),
            size=typed(parse_quantity(size, dimension=kind)),
            tolerance=typed(parse_quantity(tolerance, dimension=kind)) if tolerance is not None else None,
            stated_by=by,
        )
        return enter(shop, body, f"{by} states {size} for {dimension}", build=build, person=person)


def eye_check(
    build: str,
    check: str,
    answer: Literal["yes", "no"],
    /,
    *,
    words: str | None = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter the answer to an eye check.

    Example: fitwright shop eye-check corrie-five mains.turns_by_hand yes --words "no drag point"
    """
    from fitwright.bench.errors import UnknownNameError
    from fitwright.records.kinds import EyeCheck

    with opened(data) as shop:
        stations = shop.bench(build).sheet.stations.values()
        known = [each.id for station in stations for each in station.eye_checks]
        if check not in known:
            raise UnknownNameError("eye check", check, known)
        body = EyeCheck(check=check, answer=answer == "yes", words=words)
        return enter(shop, body, f"{check}: {answer}", build=build, person=person)


def not_in_this_job(
    build: str, subject: str, /, *, reason: Reason = None, person: Person = None, data: Data = DEFAULT_DATA
) -> int:
    """Enter that whatever begins with a name is no part of this job.

    Example: fitwright shop not-in-this-job corrie-five turbocharger --reason "exchange unit, sealed"
    """
    from fitwright.records.kinds import NotInThisJob

    with opened(data) as shop:
        _check_begins(shop.bench(build), subject)
        body = NotInThisJob(subject=subject, reason=reason)
        return enter(shop, body, f"{subject} is no part of this job", build=build, person=person)


def _check_begins(bench: Bench, subject: str) -> None:
    """Refuse a name that begins nothing in the sheet: leaving it out would leave out nothing."""
    from fitwright.bench.context import near
    from fitwright.bench.errors import UnknownNameError

    sheet = bench.sheet
    checks = (check.id for station in sheet.stations.values() for check in station.eye_checks)
    known: dict[str, None] = {}
    for name in (*sheet.dimensions, *sheet.fits, *checks):
        steps = name.split(".")
        known.update(dict.fromkeys(".".join(steps[:length]) for length in range(1, len(steps) + 1)))
    if subject not in known:
        raise UnknownNameError("dimension, fit or eye check that begins with", subject, near(subject, known))


def _check_position(bench: Bench, position: str) -> None:
    from fitwright.bench.context import near
    from fitwright.bench.errors import UnknownNameError

    if position not in bench.sheet.parts:
        raise UnknownNameError("position", position, near(position, bench.sheet.parts))


def _check_part(bench: Bench, part: str) -> None:
    from fitwright.bench.context import near
    from fitwright.bench.errors import UnknownNameError

    known = {*bench.build.parts, *bench.sheet.parts}
    if part not in known:
        raise UnknownNameError("part", part, near(part, known))
