"""`fitwright work tighten`, `look`, `loosen`, `new-set`, `heat-cycle`: what is done to fasteners."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from fitwright.cli.entering import Reason, pairs
from fitwright.cli.shop import DEFAULT_DATA, Data, opened
from fitwright.cli.work_entering import Answer, By, Entering, Fasteners, InsteadOf, Units, Words

if TYPE_CHECKING:
    from fitwright.wiring import Shop

_CHECKS: dict[str, str] = {"marked": "marked", "checked": "checked", "stands": "stands as it is"}


def tighten(
    build: str,
    group: str,
    /,
    *,
    number: Annotated[
        str | None, Parameter(name="--pass", help="Which pass; else the next that they want.")
    ] = None,
    fasteners: Fasteners = ("all",),
    torque: Annotated[str | None, Parameter(help="What the wrench was set to, or showed.")] = None,
    peak: Annotated[bool, Parameter(negative="", help="The torque is the peak that was read.")] = False,
    angle: Annotated[str | None, Parameter(help="By how much it was turned.")] = None,
    stretch: Annotated[str | None, Parameter(help="By how much it got longer.")] = None,
    free_length: Annotated[str | None, Parameter(help="Its length free; of one fastener.")] = None,
    tightened_length: Annotated[str | None, Parameter(help="Its length tightened.")] = None,
    wrench: Annotated[str | None, Parameter(help="Code of the wrench on the shelf.")] = None,
    angle_gauge: Annotated[str | None, Parameter(help="Code of the angle gauge.")] = None,
    stretch_gauge: Annotated[str | None, Parameter(help="Code of the stretch gauge or micrometer.")] = None,
    lubricant: Annotated[str | None, Parameter(help="Where another was used than the sheet says.")] = None,
    bolts: Annotated[str | None, Parameter(help="Name of a new set of bolts: B2 makes B2-1, B2-2.")] = None,
    bolt: Annotated[tuple[str, ...], Parameter(help="FASTENER=PART: which bolt sits where.")] = (),
    by: By = None,
    words: Words = None,
    instead_of: InsteadOf = None,
    reason: Reason = None,
    answer: Answer = None,
    units: Units = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a tightening: a group, the pass, which fasteners, and the torque, angle or stretch.

    A value other than the sheet's is taken once its consequence was read; the fastener then reads outside
    until a concession is granted. Stop at the maker's value, and stand so that a breaking fastener or a
    slipping bar cannot hurt you.

    Example: fitwright work tighten brackengill-eleven flywheel --torque "15 lbf ft" --wrench X11
    --answer keep --data demo
    """
    from fitwright.bench.fastener_lists import fastener_named
    from fitwright.bench.tightenings import TighteningTyped, take_tightening
    from fitwright.bench.work_taking import group_named

    with opened(data) as shop:
        entering = Entering(
            shop, build, by=by, units=units, answer=answer, instead_of=instead_of, reason=reason
        )
        found = group_named(entering.bench, group)
        named = pairs(bolt, "FASTENER=PART")
        typed = TighteningTyped(
            group=group,
            fasteners=" ".join(fasteners),
            number=number or "",
            torque=torque or "",
            read="peak" if peak else "set",
            angle=angle or "",
            stretch=stretch or "",
            free_length=free_length or "",
            tightened_length=tightened_length or "",
            wrench=wrench or "",
            angle_gauge=angle_gauge or "",
            stretch_gauge=stretch_gauge or "",
            lubricant=lubricant or "",
            note=words or "",
            bolts=bolts or "",
            members={fastener_named(found, name): part for name, part in named.items()},
        )
        taken = entering.asked(lambda taking: take_tightening(entering.bench, typed, taking))
        code = entering.write(taken)
        _say_group(shop, build, group)
        return code


def look(
    build: str,
    group: str,
    check: Annotated[
        Literal["marked", "checked", "stands"],
        Parameter(help="Marked with paint, checked by a second person, or it stands as it is."),
    ],
    /,
    *,
    fasteners: Fasteners = ("all",),
    by: By = None,
    words: Words = None,
    answer: Answer = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Say that somebody looked again at tightened fasteners.

    Example: fitwright work look brackengill-eleven main_caps checked --by foreman --data demo
    """
    from fitwright.bench.loosenings import CheckTyped, take_check

    typed = CheckTyped(group=group, fasteners=" ".join(fasteners), check=_CHECKS[check], words=words or "")
    with opened(data) as shop:
        entering = Entering(shop, build, by=by, answer=answer)
        return entering.write(entering.asked(lambda taking: take_check(entering.bench, typed, taking)))


def loosen(
    build: str,
    group: str,
    because: str,
    /,
    *,
    fasteners: Fasteners = ("all",),
    breakaway_torque: Annotated[str | None, Parameter(help="The torque that it took.")] = None,
    length_after: Annotated[str | None, Parameter(help="Free length then, of one fastener.")] = None,
    by: By = None,
    answer: Answer = None,
    units: Units = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Say that fasteners were loosened, and why: what was tightened before counts no longer.

    Take the load of springs and the pressure off first, and stand so that a slipping bar cannot hurt you.

    Example: fitwright work loosen brackengill-eleven big_end_bolts "to look at a shell" --data demo
    """
    from fitwright.bench.loosenings import LooseningTyped, take_loosening

    typed = LooseningTyped(
        group=group,
        fasteners=" ".join(fasteners),
        because=because,
        breakaway_torque=breakaway_torque or "",
        length_after=length_after or "",
    )
    with opened(data) as shop:
        entering = Entering(shop, build, by=by, units=units, answer=answer)
        code = entering.write(entering.asked(lambda taking: take_loosening(entering.bench, typed, taking)))
        _say_group(shop, build, group)
        return code


def new_set(
    build: str,
    group: str,
    /,
    *,
    stem: Annotated[str, Parameter(help="What the set is called: RB2 makes RB2-1, RB2-2.")],
    which: Annotated[
        tuple[str, ...],
        Parameter(name="--which", consume_multiple=True, help="Which are new: all, 1..6, or a list."),
    ] = ("all",),
    origin: Annotated[str | None, Parameter(help="Where it comes from: supplier, packet, batch.")] = None,
    by: By = None,
    words: Words = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Enter a new set of fasteners into their positions: those before are out, with their tightening.

    One part for each, with codes in the order of tightening, for a group whose fasteners are parts of the
    sheet; of any other say which bolts they are with `work tighten --bolts`. Exits 2 where a code is taken.

    Example: fitwright work new-set beck-single rod --stem RB2 --origin "packet 7" --by builder
    """
    from fitwright.bench.new_sets import NewSetTyped, take_new_set
    from fitwright.cli.work_lines import exchanged_lines

    typed = NewSetTyped(
        group=group, fasteners=" ".join(which), stem=stem, origin=origin or "", words=words or ""
    )
    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        taken = take_new_set(entering.bench, typed, entering.taking())
        with shop.held():
            also = tuple(exchanged_lines(shop.assessor(build), taken.entries))
        code = entering.write(taken, also=also)
        _say_group(shop, build, group)
        return code


def heat_cycle(
    build: str,
    words: str,
    /,
    *,
    taken_at: Annotated[str | None, Parameter(help="When it had cooled again: 09:30.")] = None,
    by: By = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Say that the engine was run to heat and cooled again: some groups are tightened again after it.

    Keep clear of what turns while it runs; let oil and coolant cool before anything is opened.

    Example: fitwright work heat-cycle brackengill-eleven "30 min at fast idle, cold overnight" --data demo
    """
    from fitwright.bench.loosenings import take_heat_cycle

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        return entering.write(
            take_heat_cycle(entering.bench, words, entering.taking(), taken_at=taken_at or "")
        )


def _say_group(shop: Shop, build: str, group: str) -> None:
    import sys

    sys.stdout.writelines(f"  {each}\n" for each in _group_lines(shop, build, group))


def _group_lines(shop: Shop, build: str, group: str) -> Iterator[str]:
    """How the group stands now: what is missing, what is next, what was entered twice."""
    from fitwright.bench.tightened import entered_twice
    from fitwright.cli.work_lines import group_line

    standing = shop.assembly(build).groups.get(group)
    if standing is not None:
        yield group_line(standing)
        yield from entered_twice(shop.bench(build), standing.group)
