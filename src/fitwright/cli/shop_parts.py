"""Parts and what is done to them: fitted, taken out, reworked; sizes stated; eye checks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import OfBuild, Person, Reason, enter, making
from fitwright.cli.shop import DEFAULT_DATA, Data, opened

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fitwright.wiring import Shop


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
    from fitwright.bench.parts import part_of

    with making(data) as shop:
        bench = shop.bench(build) if build is not None else None
        body = part_of(
            bench, code=code, title=title, position=position, serial=serial, used=used, origin=origin
        )
        where = f" in {position}" if position else ""
        return enter(shop, body, f"Part {code}: {title}{where}", build=build, person=person)


def fit_part(
    build: str, part: str, position: str, /, *, person: Person = None, data: Data = DEFAULT_DATA
) -> int:
    """Enter that a part was put into a position; who sat there before is out.

    Readings taken through the parts that sat there no longer prove the fit, until they are chosen again.

    Example: fitwright shop fit-part corrie-five shell-17 main.4.shell_upper
    """
    from fitwright.bench.parts import fitting_of

    with opened(data) as shop:
        body = fitting_of(shop.bench(build), part, position)
        return enter(shop, body, f"{part} is in {position}", build=build, person=person)


def take_out(build: str, position: str, /, *, person: Person = None, data: Data = DEFAULT_DATA) -> int:
    """Enter that the part in a position was taken out.

    Example: fitwright shop take-out corrie-five main.4.shell_upper
    """
    from fitwright.bench.parts import taking_out_of

    with opened(data) as shop:
        body = taking_out_of(shop.bench(build), position)
        return enter(shop, body, f"{body.part} is out of {position}", build=build, person=person)


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
    code: Annotated[str | None, Parameter(help="Code of this work on the part; else R1, R2, ...")] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a rework, repair or replacement, with the dimensions whose readings it retires.

    Example: fitwright shop state corrie-five crank "Journal 4 polished" --dimension main.4.journal
    """
    from fitwright.bench.parts import change_of

    with opened(data) as shop:
        body = change_of(shop.bench(build), part, words, dimensions, change=change, code=code)
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
    from fitwright.bench import statements

    with opened(data) as shop:
        body = statements.stated_size(
            shop.bench(build), dimension, size, by=by, tolerance=tolerance or "", place=place
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
    from fitwright.bench import statements

    with opened(data) as shop:
        body = statements.eye_check(shop.bench(build), check, answer=answer == "yes", words=words)
        return enter(shop, body, f"{check}: {answer}", build=build, person=person)


def not_in_this_job(
    build: str, subject: str, /, *, reason: Reason = None, person: Person = None, data: Data = DEFAULT_DATA
) -> int:
    """Enter that whatever begins with a name is no part of this job.

    Example: fitwright shop not-in-this-job corrie-five turbocharger --reason "exchange unit, sealed"
    """
    from fitwright.bench import statements

    with opened(data) as shop:
        body = statements.not_in_this_job(shop.bench(build), subject, reason)
        words = f"{subject} is no part of this job"
        return enter(shop, body, words, build=build, person=person, pins=_pins(shop, build, subject, person))


def _pins(shop: Shop, build: str, subject: str, person: str | None) -> Mapping[str, str]:
    """The PIN of whoever leaves a hold point out of a job: that is as good as a release."""
    from fitwright.bench.guarding import holds_left_out
    from fitwright.bench.sittings import person_named
    from fitwright.cli.pins import pins_for

    if person is None or len(shop.state.people) < 2 or not holds_left_out(shop.bench(build).sheet, subject):
        return {}
    return pins_for(shop, person_named(shop.state, person))
