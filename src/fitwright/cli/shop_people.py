"""People, sittings, decisions and words: entered, and taken back."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import OfBuild, Person, Reason, enter, entry_named, making, pairs
from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data, opened


def person(
    code: str,
    name: str,
    /,
    *,
    role: str | None = None,
    drag: Annotated[
        str, Parameter(help="Gap over a blade at which this person calls it dragging.")
    ] = "0.003 mm",
    drag_uncertainty: str = "0.002 mm",
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter somebody who measures, types, decides or signs.

    Example: fitwright shop person builder "Builder" --role builder
    """
    from fitwright.bench.shelf import person_from

    body = person_from(name, code=code, role=role, drag=drag, drag_uncertainty=drag_uncertainty)
    with making(data) as shop:
        return enter(shop, body, f"{name} is {code}")


def sitting(
    build: str,
    code: str,
    /,
    *,
    measured_by: Annotated[str | None, Parameter(help="Who measures; else the only person.")] = None,
    typed_by: str | None = None,
    temperature: Annotated[str, Parameter(help="Of gauges and room.")] = "20 degC",
    temperature_uncertainty: str = "0.5 K",
    difference_uncertainty: Annotated[str, Parameter(help="Of part against gauge.")] = "0.2 K",
    part_temperature: Annotated[tuple[str, ...], Parameter(help="POSITION=TEMPERATURE.")] = (),
    gauge: Annotated[tuple[str, ...], Parameter(help="KIND=CODE: which gauge of a kind is used.")] = (),
    setting: Annotated[tuple[str, ...], Parameter(help="CODE=SETTING: what a gauge is set to.")] = (),
    attitude: Annotated[str | None, Parameter(help="How the engine lies.")] = None,
    crank: Annotated[str | None, Parameter(help="Where the crank stands.")] = None,
    words: str | None = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Begin a sitting: who measures, with what, at what temperature; its readings inherit it.

    Example: fitwright shop sitting corrie-five T-40 --measured-by builder --temperature "21 degC"
    --gauge "bore gauge=B1" --setting B1=S-013
    """
    from fitwright.bench.sittings import begin_sitting, sitting_from

    with opened(data) as shop:
        bench = shop.bench(build)
        body = sitting_from(
            bench,
            code=code,
            measured_by=measured_by,
            typed_by=typed_by,
            temperature=temperature,
            temperature_uncertainty=temperature_uncertainty,
            difference_uncertainty=difference_uncertainty,
            part_temperatures=pairs(part_temperature, "POSITION=TEMPERATURE"),
            instruments=pairs(gauge, "KIND=CODE"),
            settings=pairs(setting, "CODE=SETTING"),
            attitude=attitude,
            crank=crank,
            words=words,
        )
        written = shop.write([begin_sitting(bench, body)], since=shop.position)
    sys.stdout.write(
        f"Sitting {code}: {body.measured_by} measures (entry {written.acknowledgements[0].seq}).\n"
    )
    return OK


def choice(
    build: str,
    which: Annotated[
        Literal["use-again", "use-instead", "keep-both"], Parameter(help="What is decided about the entries.")
    ],
    /,
    *entries: Annotated[str, Parameter(help="Numbers or ids of entries.")],
    instead_of: Annotated[tuple[str, ...], Parameter(help="Entries no longer used.")] = (),
    reason: Reason = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Decide about readings: use them again after the set was put back, or one instead of another.

    Example: fitwright shop choice corrie-five use-again 431 432 --reason "same shells, same torque"
    """
    from fitwright.bench.decisions import choice_of

    with opened(data) as shop:
        body = choice_of(
            _DECIDED[which],
            [entry_named(shop, each).id for each in entries],
            instead_of=[entry_named(shop, each).id for each in instead_of],
            reason=reason,
        )
        return enter(shop, body, f"Decided: {body.choice}", build=build, person=person)


_DECIDED: dict[str, Literal["use again", "use instead", "keep both"]] = {
    "use-again": "use again",
    "use-instead": "use instead",
    "keep-both": "keep both",
}


def adopt_limit(
    build: str,
    subject: str,
    /,
    *,
    by: Annotated[str, Parameter(help="Who adopts it.")],
    source: Annotated[str, Parameter(help="Which source's limit; its id in the sheet.")],
    lower: Annotated[
        str | None, Parameter(help="Lower bound, where stated anew.", allow_leading_hyphen=True)
    ] = None,
    upper: Annotated[
        str | None, Parameter(help="Upper bound, where stated anew.", allow_leading_hyphen=True)
    ] = None,
    reason: Reason = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Adopt a limit for a fit or dimension, by name and with a reason.

    Example: fitwright shop adopt-limit corrie-five rod.1.side_clearance --by builder --source trade
    --reason "the manual gives none"
    """
    from fitwright.bench.adopting import limit_adopted

    with opened(data) as shop:
        body = limit_adopted(
            shop.bench(build), subject, source, by=by, reason=reason, lower=lower, upper=upper
        )
        who = body.adopted_by
        return enter(shop, body, f"{who} adopts the limit of {source} for {subject}", build=build, person=who)


def withdraw(
    entry: str, /, *, reason: Reason = None, person: Person = None, data: Data = DEFAULT_DATA
) -> int:
    """Take an entry back; it stays visible. Withdrawing a withdrawal brings it back.

    Example: fitwright shop withdraw 431 --reason "wrong part on the bench"
    """
    from fitwright.bench.decisions import withdrawal_of

    with opened(data) as shop:
        found = entry_named(shop, entry)
        body = withdrawal_of(found.id, reason)
        words = f"Entry {found.seq} ({found.kind}) is withdrawn"
        return enter(shop, body, words, build=found.build, person=person)


def note(
    text: str,
    /,
    *,
    build: OfBuild = None,
    subject: Annotated[str | None, Parameter(help="What it is about: a fit, a part, a station.")] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Write words down; a note changes no digit.

    Example: fitwright shop note "Tang marks on shell 4" --build corrie-five --subject main.4
    """
    from fitwright.bench.photos import about
    from fitwright.bench.statements import note_of

    with making(data) as shop:
        if build is not None and subject is not None:
            about(shop.bench(build), subject)
        return enter(shop, note_of(text, subject), "Noted", build=build, person=person)


def photo(
    file: Path,
    /,
    *,
    caption: Annotated[str | None, Parameter(help="What it shows.")] = None,
    build: OfBuild = None,
    subject: Annotated[str | None, Parameter(help="What it is about: a fit, a part, a station.")] = None,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Keep a photo (JPEG, PNG or WebP): turned upright, stripped of all but the picture.

    Example: fitwright shop photo shells.jpg --caption "Lower shells in order" --build corrie-five
    """
    from fitwright.bench.photos import about, media_type_of, photo_of

    if not file.is_file():
        raise UsageError(f"There is no file {file}: name a JPEG, PNG or WebP picture.")
    content = file.read_bytes()
    media_type = media_type_of(content, str(file))
    with making(data) as shop:
        if build is not None and subject is not None:
            about(shop.bench(build), subject)
        digest = shop.keep_photo(content, media_type)
        body = photo_of(digest, media_type, caption=caption, subject=subject)
        return enter(shop, body, f"Photo kept as {digest[:12]}", build=build, person=person)


def rule(
    limit_class: Literal["critical", "normal"],
    probability: Annotated[str, Parameter(help="Probability that `within` must reach, such as 0.95.")],
    /,
    *,
    person: Person = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """State this shop's decision rule: how probable it must be before a bound counts as proven.

    Example: fitwright shop rule critical 0.99
    """
    from fitwright.bench.shelf import rule_from

    body = rule_from(limit_class, probability)
    with making(data) as shop:
        return enter(shop, body, f"{limit_class} limits are proven from {probability}", person=person)
