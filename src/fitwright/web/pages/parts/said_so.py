"""What was said and decided: eye checks, sizes stated, what is left out, limits adopted, choices."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.records import kinds
from fitwright.records.kinds import Body
from fitwright.units.families import Family
from fitwright.web.addresses import parts_address, photo_address
from fitwright.web.pages.parts.happened import HistoryLine, history, history_line


@dataclass(frozen=True, slots=True)
class EyeLine:
    """An eye check with its last answer; `asks` says where the answer is not the one wanted."""

    question: str
    answer: str
    asks: str
    words: str
    photo: str
    address: str
    line: HistoryLine | None


@dataclass(frozen=True, slots=True)
class SaidGroup:
    """Entries of one kind under a heading; `empty` says what to do where there is none."""

    anchor: str
    title: str
    lines: tuple[HistoryLine, ...]
    empty: str
    enter: str
    label: str


def eye_lines(bench: Bench, family: Family) -> tuple[EyeLine, ...]:
    """Every eye check that the sheet asks for, in the order of the stations."""
    return tuple(_eyes(bench, family))


def _eyes(bench: Bench, family: Family) -> Iterator[EyeLine]:
    answers = {held.body.check: held for held in bench.build.eye_checks}
    code = bench.build.build
    for station in bench.sheet.stations.values():
        for check in station.eye_checks:
            held = answers.get(check.id)
            body = held.body if held is not None else None
            yield EyeLine(
                question=check.question,
                answer=("yes" if body.answer else "no") if body is not None else "not answered",
                asks=("yes" if check.wanted else "no") if body and body.answer is not check.wanted else "",
                words=(body.words or "") if body is not None else "",
                photo=photo_address(code, body.photo) if body is not None and body.photo else "",
                address=parts_address(code, family, do="eye", check=check.id),
                line=history_line(bench, family, held.entry) if held is not None else None,
            )


_GROUPS: tuple[tuple[str, str, type[Body], str, str], ...] = (
    ("adopted", "Limits adopted", kinds.LimitAdopted, "adopt", "Adopt a limit"),
    ("choices", "Choices between readings", kinds.Choice, "choose", "Choose readings"),
    ("left-out", "Not in this job", kinds.NotInThisJob, "not-in-job", "Leave something out"),
    (
        "not-measured",
        "Not measured, because",
        kinds.NotMeasured,
        "not-measured",
        "Say why something is not measured",
    ),
    ("stated", "Sizes that somebody states", kinds.StatedSize, "stated", "State a size"),
)


def _is(noun: type[Body]) -> Callable[[Body], bool]:
    return lambda body: isinstance(body, noun)


def said_groups(bench: Bench, family: Family) -> tuple[SaidGroup, ...]:
    """What was said and decided, kind by kind; what was taken back stays visible."""
    return tuple(
        SaidGroup(
            anchor=anchor,
            title=title,
            lines=history(bench, family, _is(noun)),
            empty="Nothing yet.",
            enter=parts_address(bench.build.build, family, do=do),
            label=label,
        )
        for anchor, title, noun, do, label in _GROUPS
    )
