"""Sentences about verdicts in the reader's unit: never more than the readings prove."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fitwright.assess.results import Assessment, CentringFound, FitVerdict, Verdict
from fitwright.assess.settling import Settling
from fitwright.assess.words import BEFORE_METAL, HOT_NOT_JUDGED, summary
from fitwright.drawing.figures import Reader
from fitwright.model.sheet import Sheet
from fitwright.physics.fits.joint_face import JointMove

SMALLEST_MOVE = 5e-6
"""A smaller move [m] is none that anybody could make."""


def summary_sentence(found: Assessment) -> str:
    """What is outside, unproven and not measured, and how much was not recorded."""
    text = summary(
        found.count(Verdict.WITHIN),
        found.count(Verdict.OUTSIDE),
        found.count(Verdict.UNPROVEN),
        found.count(Verdict.NOT_MEASURED),
        len(found.not_recorded),
    )
    thumb = sum(
        1
        for each in found.verdicts.values()
        if each.verdict is Verdict.WITHIN and each.source_kind == "rule of thumb"
    )
    return f"{text} {thumb} of those within are within a rule of thumb only." if thumb else text


def verdict_sentence(found: FitVerdict, reader: Reader) -> str:
    """Value, limits, verdict and what is in hand, in one sentence."""
    parts = [found.words]
    value = reader.value(found)
    if value:
        parts.append(value)
    limits = reader.limits_alone(found)
    if limits:
        parts.append(f"limits {limits} ({reader.source(found)})")
    hand = reader.in_hand(found)
    if hand:
        parts.append(hand)
    sentence = "; ".join(parts) + "."
    if found.verdict is Verdict.OUTSIDE and found.removes_metal:
        sentence = f"{sentence} {BEFORE_METAL}"
    return sentence


def settle_sentence(
    found: FitVerdict,
    settling: Settling | None,
    reader: Reader,
    called: Callable[[str], str] = str,
) -> str:
    """What would settle an unproven fit, or what stands in its way; `called` names a dimension by its id."""
    if found.verdict not in (Verdict.UNPROVEN, Verdict.NOT_MEASURED):
        return ""
    changed = list(dict.fromkeys(unused.why for unused in found.unused if unused.changed))
    if found.reason is not None and found.reason.value == "changed since" and changed:
        return f"{changed[0]}: read again"
    incomplete = found.reason is not None and found.reason.value == "incomplete"
    if found.missing and (incomplete or found.verdict is Verdict.NOT_MEASURED):
        names = ", ".join(map(called, found.missing[:3]))
        return _wanted(found, reader) or f"read {names}"
    return settling.words() if settling is not None else ""


def titles_in(sheet: Sheet) -> Callable[[str], str]:
    """Names a dimension by its title, as a person at the bench knows it."""
    return lambda name: sheet.dimensions[name].title if name in sheet.dimensions else name


def coarse_set_sentences(found: FitVerdict, settling: Settling | None, reader: Reader) -> Iterator[str]:
    """Which blade sets on the shelf cannot prove these limits, and which blade would."""
    for each in settling.too_coarse if settling is not None else ():
        missing = each.capability.missing
        if missing:
            low = reader.amount(found, missing[0].thinnest, 1e-6)
            high = reader.amount(found, missing[0].thickest, 1e-6)
            cure = f"a blade between {low} and {high} would, beside {missing[0].beside.key}"
        else:
            cure = "no single blade more would"
        yield f"{each.title} ({each.code}) cannot prove these limits, whatever the gap: {cure}"


def _wanted(found: FitVerdict, reader: Reader) -> str:
    wanted = found.size_wanted
    if wanted is None or wanted.low is None or wanted.high is None:
        return ""
    return f"{wanted.dimension} wanted: {reader.span_inside(found, wanted.low, wanted.high)}"


def wanted_sentence(found: FitVerdict, title: str, reader: Reader) -> str:
    """What size the one missing member must read for the fit to be within, guard bands taken off.

    `title` is that of the missing dimension; nothing where no single member is missing.
    """
    wanted = found.size_wanted
    if wanted is None:
        return ""
    read = f"read with {wanted.gauge}" if wanted.gauge else "read without any error of its own"
    if not wanted.possible:
        return f"{title}: no size, {read}, would be proven within"
    if wanted.low is not None and wanted.high is not None:
        return f"{title}: {reader.span_inside(found, wanted.low, wanted.high)}, {read}, would be within"
    if wanted.low is not None:
        return f"{title}: {reader.from_inside(found, wanted.low)} or more, {read}, would be within"
    if wanted.high is not None:
        return f"{title}: {reader.up_to_inside(found, wanted.high)} or less, {read}, would be within"
    return ""


def hot_sentences(found: FitVerdict, reader: Reader) -> Iterator[str]:
    """The hot states; estimated and not judged, unless the source gives a hot limit."""
    for state in found.hot:
        note = "" if state.judged else f" ({HOT_NOT_JUDGED})"
        yield f"{reader.hot(found, state)}{note}"
    for grip in found.grip:
        left = reader.amount(found, grip.interference, 1e-6)
        yield f"{grip.title}: interference {left}, pressure {grip.pressure / 1e6:.0f} MPa"
    if found.centring is not None:
        yield from centring_sentences(found, found.centring, reader)


def centring_sentences(found: FitVerdict, centring: CentringFound, reader: Reader) -> Iterator[str]:
    """Where the housing sits, what the nose runs out, and the move that centres it."""
    if centring.run_out is not None:
        run_out = reader.amount(found, centring.run_out.magnitude, 1e-6)
        yield f"nose run-out {run_out} (half of the total indicator reading), kept apart from the offset"
    if centring.running_offset is not None:
        running = reader.amount(found, centring.running_offset.magnitude, 1e-6)
        yield f"with the crank risen in its clearance: offset about {running}"
    parts = centring.move.parts if centring.move is not None else ()
    moves = ", ".join(
        f"{reader.amount(found, part.distance, 1e-5)} towards {part.towards}"
        for part in parts
        if part.distance >= SMALLEST_MOVE
    )
    if moves:
        yield f"to centre it, move the housing {moves}"
    if centring.joint is not None:
        yield joint_sentence(found, centring.joint, reader)
    yield from centring.words


def joint_sentence(found: FitVerdict, joint: JointMove, reader: Reader) -> str:
    """Whether the move that centres the housing can also leave its joint face level."""
    if not joint.possible or joint.best_move is None:
        return "no move both centres the housing and leaves its joint face level: the face has to be dressed"
    up = reader.amount(found, abs(joint.best_move.up), 1e-5)
    way = "up" if joint.best_move.up >= 0.0 else "down"
    left, step = (reader.amount(found, each, 1e-5) for each in (joint.offset_left, joint.step_left))
    return f"with the joint face kept level: {up} {way} leaves an offset of {left} and a step of {step}"
