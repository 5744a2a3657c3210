"""Gauges and blades on the shelf: entered, calibrated, set, looked at again."""

from __future__ import annotations

import sys
from typing import Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import Person, enter, making
from fitwright.cli.errors import INPUT, OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data


def instrument(
    code: str,
    title: str,
    /,
    *,
    type_: Annotated[
        str, Parameter(name="--type", help="outside micrometer, bore gauge, dial indicator, ...")
    ],
    resolution: Annotated[str, Parameter(help="One division.")],
    unit: Annotated[str, Parameter(help="Unit that it reads in.")] = "mm",
    repeatability: Annotated[str | None, Parameter(help="Spread of one reading; else its division.")] = None,
    uncertainty: Annotated[str | None, Parameter(help="Of its calibration, where none is recorded.")] = None,
    transfer: Annotated[str | None, Parameter(help="What each setting of a comparison gauge adds.")] = None,
    comparison: Annotated[bool, Parameter(negative="", help="It is set against a master.")] = False,
    range_low: Annotated[str | None, Parameter(name="--from", help="Smallest reading.")] = None,
    range_high: Annotated[str | None, Parameter(name="--to", help="Largest reading.")] = None,
    zero_limit: Annotated[str | None, Parameter(help="How far off its zero may be.")] = None,
    typical: Annotated[bool, Parameter(negative="", help="The figures are typical ones.")] = False,
    note: str | None = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter an instrument, or its newer state. Numbers without a unit are in its own.

    Example: fitwright shop instrument M3 "Micrometer 50 to 75" --type "outside micrometer"
    --resolution 0.001 --from 50 --to 75 --zero-limit 0.004
    """
    from fitwright.bench.shelf import instrument_from

    body = instrument_from(
        code,
        title,
        type_=type_,
        resolution=resolution,
        unit=unit,
        repeatability=repeatability,
        uncertainty=uncertainty,
        transfer=transfer,
        comparison=comparison,
        range_low=range_low,
        range_high=range_high,
        zero_limit=zero_limit,
        typical=typical,
        note=note,
    )
    with making(data) as shop:
        return enter(shop, body, f"{type_} {code}: {title}", person=person)


def calibration(
    instrument: str,
    /,
    *,
    uncertainty: Annotated[str | None, Parameter(help="Standard uncertainty.")] = None,
    correction: Annotated[
        str | None, Parameter(help="Added to each reading.", allow_leading_hyphen=True)
    ] = None,
    degrees_of_freedom: float | None = None,
    date: str | None = None,
    certificate: str | None = None,
    never: Annotated[bool, Parameter(negative="", help="It was never calibrated: a typical figure.")] = False,
    code: Annotated[str | None, Parameter(help="Its own code; else made from the instrument's.")] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a calibration of an instrument, or that it never had one.

    Example: fitwright shop calibration M3 --uncertainty 0.001 --date 2031-01-13 --certificate "TC 31/0207"
    """
    from fitwright.bench.shelf import calibration_from

    if uncertainty is None and not never:
        raise UsageError("Say its --uncertainty, or --never if it was never calibrated.")
    with making(data) as shop:
        body = calibration_from(
            shop.state,
            instrument,
            uncertainty=uncertainty,
            correction=correction,
            degrees_of_freedom=degrees_of_freedom,
            date=date,
            certificate=certificate,
            never=never,
            code=code,
        )
        words = f"{instrument} was never calibrated" if never else f"Calibration {body.code} of {instrument}"
        return enter(shop, body, words, person=person)


def setting(
    code: str,
    instrument: str,
    /,
    *,
    zero: Annotated[
        str | None,
        Parameter(help="What it shows where it should show nothing.", allow_leading_hyphen=True),
    ] = None,
    size: Annotated[str | None, Parameter(help="The size that it was set to.")] = None,
    against: Annotated[str | None, Parameter(help="The ring, rod or block that it was set on.")] = None,
    uncertainty: Annotated[str | None, Parameter(help="Standard uncertainty of that.")] = None,
    master: Annotated[str | None, Parameter(help="The instrument that it was set in.")] = None,
    master_setting: Annotated[str | None, Parameter(help="The setting of that instrument.")] = None,
    sitting: str | None = None,
    answer: Annotated[
        str | None, Parameter(help="Answer to the question about its zero.", allow_leading_hyphen=True)
    ] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a setting of a gauge. A zero beyond the gauge's own limit is asked for its sign.

    Example: fitwright shop setting S-013 B1 --size "60.510 mm" --master M3 --master-setting S-003
    """
    from fitwright.bench.settings import setting_from, take_setting
    from fitwright.bench.sittings import person_named
    from fitwright.cli.terminal import Terminal
    from fitwright.model.slips import Question

    with making(data) as shop:
        body = setting_from(
            shop.state,
            code,
            instrument,
            size=size,
            against=against,
            uncertainty=uncertainty,
            master=master,
            master_setting=master_setting,
            sitting=sitting,
        )
        who = person_named(shop.state, person) if person is not None else None
        found = take_setting(shop.state, body, zero=zero, person=who)
        if isinstance(found, Question):
            terminal = Terminal()
            if answer is None and not terminal.typing:
                labels = ", ".join(f'"{guess.label}"' for guess in found.guesses)
                sys.stderr.write(f"{found.text} Say it with --answer: {labels} or keep.\n")
                return INPUT
            given = answer or terminal.put(found) or ""
            found = take_setting(shop.state, body, zero=zero, person=who, answers={found.key: given})
            assert not isinstance(found, Question)  # noqa: S101  (it was answered)
        written = shop.write(found)
    seq = written.acknowledgements[0].seq
    sys.stdout.write(f"Setting {code} of {instrument} (entry {seq}).\n")
    return OK


def check_back(
    setting: str,
    drift: Annotated[
        str, Parameter(help="What the gauge now shows too much on its master.", allow_leading_hyphen=True)
    ],
    /,
    *,
    sitting: str | None = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter that a setting was looked at again, and what the gauge then showed too much.

    Readings in a setting that drifted no longer prove anything, and their fits say so.

    Example: fitwright shop check-back S-013 +0.001
    """
    from fitwright.bench.settings import check_back_from
    from fitwright.units import echo

    with making(data) as shop:
        body, shown = check_back_from(shop.state, setting, drift, sitting=sitting)
        words = f"{setting} looked at again: {echo(shown)}"
        return enter(shop, body, words, person=person)


def blade_set(
    code: str,
    title: str,
    /,
    *blades: Annotated[str, Parameter(help="0.05, or 0.05=0.0512 where it was measured.")],
    unit: Annotated[Literal["mm", "in", "thou"], Parameter(help="Unit of the markings.")] = "mm",
    uncertainty: Annotated[str, Parameter(help="Standard uncertainty of a blade.")] = "0.003 mm",
    measured_uncertainty: Annotated[str, Parameter(help="The same, of one that was measured.")] = "0.001 mm",
    missing: Annotated[tuple[str, ...], Parameter(help="Markings that are not in the set any more.")] = (),
    plugs: Annotated[bool, Parameter(negative="", help="They are plug gauges.")] = False,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a set of feeler blades (or plugs), blade by blade as they are marked.

    Example: fitwright shop blade-set F2 "Fine set" 0.03 0.04 0.05 0.06=0.0612
    """
    from fitwright.bench.blade_sets import blade_set_from

    body = blade_set_from(
        code,
        title,
        blades,
        unit=unit,
        uncertainty=uncertainty,
        measured_uncertainty=measured_uncertainty,
        missing=missing,
        plugs=plugs,
    )
    with making(data) as shop:
        kind = "plugs" if plugs else "blades"
        return enter(
            shop, body, f"{title}, {len(body.blades)} {kind} marked in {unit}, as {code}", person=person
        )
