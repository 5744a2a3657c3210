"""A build's verdicts as text: station by station, the sum of it, and what was not recorded."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fitwright.assess.results import Assessment, FitVerdict, State, Verdict
from fitwright.assess.words import BEFORE_METAL, HOT_NOT_JUDGED
from fitwright.cli.console import console
from fitwright.drawing.accepted import accepted_in, accepted_sentence
from fitwright.drawing.figures import MARKS, Reader
from fitwright.drawing.sentences import settle_sentence, summary_sentence
from fitwright.units.families import Family
from fitwright.wiring import Shop

_FIRST_NUMBER = re.compile(r"(\D*)(?:(\d+)(.*))?", re.DOTALL)
WIDTH_FOR_WHOLE_WORDS = 80
"""In a narrower terminal a long word is broken rather than a column cut off."""

_STYLES = {Verdict.OUTSIDE: "bold red", Verdict.UNPROVEN: "bold", Verdict.NOT_MEASURED: "dim"}


def print_report(
    shop: Shop, build: str, found: Sequence[Assessment], family: Family, only: str | None
) -> None:
    """Print one or two assessments; two stand beside each other. One kind asked for stands alone."""
    out = console()
    reader = Reader(family)
    _print_head(out, shop, build)
    if len(found) == 2:
        _print_side_by_side(out, found[0], found[1], reader)
    else:
        _print_stations(out, shop, build, found[0], reader, only)
    for assessment in found:
        out.print()
        accepted = accepted_sentence(shop.assessor(build, assessment.state), assessment, shop.clock())
        summed_up = f"{_name(assessment.state)}: {summary_sentence(assessment)} {accepted}".strip()
        out.print(Text(summed_up, style="bold"))
    if only is None:
        _print_not_recorded(out, found[-1])
        _print_not_on_sheet(out, found[-1])


def _print_head(out: Console, shop: Shop, build: str) -> None:
    bench = shop.bench(build)
    started = shop.builds()[build]
    engine = bench.sheet.engine
    out.print(Text(started.title or engine.name, style="bold"))
    facts = [
        f"job {started.job_number}" if started.job_number else "",
        f"engine {started.engine_number}" if started.engine_number else "",
        f"sheet {engine.id} revision {engine.revision}",
        started.duty or engine.duty or "",
    ]
    out.print(", ".join(fact for fact in facts if fact))


def _print_stations(
    out: Console, shop: Shop, build: str, found: Assessment, reader: Reader, only: str | None
) -> None:
    out.print(f"State: {_name(found.state)}. Hot states: {HOT_NOT_JUDGED}; see --working.")
    assessor = shop.assessor(build, found.state)
    settling, accepted = assessor.settling, accepted_in(assessor, found.verdicts.values(), shop.clock())
    stations = list(_by_station(shop, build, found, only))
    if only is not None and not stations:
        out.print()
        out.print(f"No fit has the verdict {only.replace('-', ' ')}.")
    for title, verdicts in stations:
        out.print()
        table = Table(title=title, title_justify="left", title_style="bold", box=None, pad_edge=False)
        longest = max(len(word) for each in verdicts for word in each.name.split())
        whole = longest if out.width >= WIDTH_FOR_WHOLE_WORDS else None
        for heading in ("verdict", "fit", "value", "limits", "source", ""):
            table.add_column(heading, overflow="fold", min_width=whole if heading == "fit" else None)
        for verdict in verdicts:
            open_ = verdict.verdict is Verdict.UNPROVEN
            settle = settle_sentence(verdict, settling(verdict.id) if open_ else None, reader)
            said = (settle or reader.in_hand(verdict), accepted.get(verdict.id, ""))
            table.add_row(*_row(verdict, reader), "; ".join(each for each in said if each))
        out.print(table)
        if any(each.verdict is Verdict.OUTSIDE and each.removes_metal for each in verdicts):
            out.print(BEFORE_METAL)


def _row(found: FitVerdict, reader: Reader) -> tuple[Text, str, str, str, str]:
    return (
        _verdict(found),
        found.name,
        reader.value(found),
        reader.limits(found),
        reader.source(found),
    )


def _verdict(found: FitVerdict) -> Text:
    words = found.words.split(",")[0].split(":")[0]
    reason = f" ({found.reason.value})" if found.reason else ""
    return Text(f"{MARKS[found.verdict]} {words}{reason}", style=_STYLES.get(found.verdict, ""))


def _print_side_by_side(out: Console, before: Assessment, after: Assessment, reader: Reader) -> None:
    out.print("As received beside current; only what differs, or is not within in both.")
    table = Table(box=None, pad_edge=False)
    for heading in ("fit", "as received", "value", "current", "value", "limits"):
        table.add_column(heading, overflow="fold")
    for subject, now in after.verdicts.items():
        then = before.verdicts.get(subject)
        if then is None or (then.verdict is now.verdict is Verdict.WITHIN):
            continue
        if then.verdict is now.verdict is Verdict.NOT_MEASURED:
            continue
        table.add_row(
            now.name, _verdict(then), reader.value(then), _verdict(now), reader.value(now), reader.limits(now)
        )
    out.print()
    out.print(table)


def _by_station(
    shop: Shop, build: str, found: Assessment, only: str | None
) -> Iterable[tuple[str, list[FitVerdict]]]:
    stations = shop.bench(build).sheet.stations
    wanted = [each for each in found.verdicts.values() if only in (None, each.verdict.value)]
    for station in stations.values():
        here = [each for each in wanted if each.station == station.id]
        if here:
            yield station.title, here
    elsewhere = [each for each in wanted if each.station not in stations]
    if elsewhere:
        yield "Elsewhere", elsewhere


def _print_not_recorded(out: Console, found: Assessment) -> None:
    if not found.not_recorded:
        return
    out.print()
    out.print(Text(f"Not recorded ({len(found.not_recorded)}):", style="bold"))
    texts = [
        f"{each.title}: not measured, because {each.because}" if each.because else each.title
        for each in found.not_recorded
    ]
    for text in in_rows(texts):
        out.print(f"  – {text}")


def _print_not_on_sheet(out: Console, found: Assessment) -> None:
    if not found.not_on_sheet:
        return
    out.print()
    out.print(Text(f"Recorded, and in no verdict ({len(found.not_on_sheet)}):", style="bold"))
    for each in found.not_on_sheet:
        out.print(f"  – entry {each.seq}: {each.words} at {each.dimension} {each.place}; {each.why}")


def in_rows(texts: Iterable[str]) -> list[str]:
    """Texts that differ in one number only as one text, as the sheet writes it: `Main {1,2,5} journal`.

    >>> in_rows(["Main 1 journal", "Main 2 journal", "Crank", "Main 3 journal"])
    ['Main {1..3} journal', 'Crank']
    """
    rows: dict[tuple[str, str], list[int]] = {}
    for text in texts:
        before, number, after = _FIRST_NUMBER.fullmatch(text).groups("")  # type: ignore[union-attr]
        rows.setdefault((before, after), []).append(int(number) if number else -1)
    return [f"{before}{_braced(numbers)}{after}" for (before, after), numbers in rows.items()]


def _braced(numbers: list[int]) -> str:
    if len(numbers) == 1:
        return str(numbers[0]) if numbers[0] >= 0 else ""
    first, last = numbers[0], numbers[-1]
    if numbers == list(range(first, last + 1)):
        return f"{{{first}..{last}}}"
    return f"{{{','.join(map(str, numbers))}}}"


def _name(state: State) -> str:
    return "as received" if state is State.AS_RECEIVED else "current"
