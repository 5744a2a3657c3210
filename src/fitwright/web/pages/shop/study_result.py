"""What a gauge study found, through the quick sum `gauge-study`, with the verdict in the trade's words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, NamedTuple

from fitwright.records.kinds import GaugeStudy
from fitwright.sums.errors import SumError
from fitwright.sums.registry import sum_named
from fitwright.sums.running import answer
from fitwright.web.pages.shop.amounts import small, typed_words

GOOD, FAIR = 0.10, 0.30
"""Six standard deviations over the band [aiag_msa_2010]: up to the first good, to the second fair."""
GROUPS: Final = 5
"""So many groups of parts a gauge should tell apart [aiag_msa_2010]."""
BY_VARIANCE, BY_RANGES = "analysis of variance", "averages and ranges"
SOURCES: Final = {
    "repeatability": "one person on one part again",
    "reproducibility": "between people",
    "gauge": "the gauge in these hands, both together",
    "parts": "between the parts",
    "total": "all together",
}


@dataclass(frozen=True, slots=True)
class ShareLine:
    """One source of spread, by both ways of working it out."""

    source: str
    by_variance: str
    by_ranges: str
    of_total: str
    of_band: str


@dataclass(frozen=True, slots=True)
class StudyResult:
    """What a study found; `wrong` where it cannot be worked out."""

    size: str
    verdict: str
    groups: str
    shares: tuple[ShareLine, ...]
    interaction: str
    freedom: str
    wrong: str


class Spread(NamedTuple):
    """One standard deviation [m] with its degrees of freedom."""

    standard_deviation: float
    degrees_of_freedom: float | None


def result_of(body: GaugeStudy) -> StudyResult:
    """Work a study out."""
    people = dict.fromkeys(each.person for each in body.readings)
    parts = dict.fromkeys(each.part for each in body.readings)
    repeats = len(body.readings) // max(len(people) * len(parts), 1)
    size = f"{len(people)} people, {len(parts)} parts, {repeats} readings each"
    try:
        found = answer(sum_named("gauge-study"), _inputs(body))
    except SumError as error:
        return StudyResult(size, f"It cannot be worked out: {error}", "", (), "", "", str(error))
    rows = _rows(found.results["shares"])
    unit = body.readings[0].indication.unit
    groups = found.results["distinct_categories_by_variance"]
    pooled = found.results["interaction_pooled"]
    number = groups.value if groups is not None else None
    return StudyResult(
        size=size,
        verdict=_verdict(rows[BY_VARIANCE, "gauge"]["share_of_limit_band"], number, body),
        groups=_groups_words(number),
        shares=tuple(_share(rows, source, unit) for source in SOURCES),
        interaction=""
        if pooled is not None and pooled.value
        else "Which person reads high depends on the part: look at how each holds the gauge.",
        freedom=_freedom_words(rows),
        wrong="",
    )


def spreads_of(body: GaugeStudy) -> tuple[Spread, Spread]:
    """What one reading is uncertain by: for one person again, and whoever reads.

    Raises
    ------
    SumError
        If the study cannot be worked out.
    """
    rows = _rows(answer(sum_named("gauge-study"), _inputs(body)).results["shares"])
    own, whole = (
        Spread(float(row["standard_deviation"]), row["degrees_of_freedom"])
        for row in (rows[BY_VARIANCE, "repeatability"], rows[BY_VARIANCE, "gauge"])
    )
    return own, whole


def _freedom_words(rows: Mapping[tuple[str, str], Mapping[str, Any]]) -> str:
    """From how much the two standard deviations that matter were found."""
    named = (("one person again", "repeatability"), ("the gauge in these hands", "gauge"))
    found = [(words, rows[BY_VARIANCE, source]["degrees_of_freedom"]) for words, source in named]
    return "; ".join(f"{words}: {freedom:.1f}" for words, freedom in found if freedom is not None)


def _inputs(body: GaugeStudy) -> dict[str, Any]:
    readings = [
        {"person": each.person, "part": each.part, "indication": each.indication.si} for each in body.readings
    ]
    return {"readings": readings} | (
        {"limit_band": body.limit_band.si} if body.limit_band is not None else {}
    )


def _rows(figure: Any) -> dict[tuple[str, str], Mapping[str, Any]]:  # noqa: ANN401  (figures of any kind)
    rows = [{key: each.value for key, each in row.items()} for row in figure.value]
    return {(row["method"], row["source"]): row for row in rows}


def _share(rows: Mapping[tuple[str, str], Mapping[str, Any]], source: str, unit: str) -> ShareLine:
    variance, ranges = rows[BY_VARIANCE, source], rows[BY_RANGES, source]
    band = variance["share_of_limit_band"]
    return ShareLine(
        source=SOURCES[source],
        by_variance=small(variance["standard_deviation"], unit),
        by_ranges=small(ranges["standard_deviation"], unit),
        of_total=f"{variance['share_of_total']:.0%}",
        of_band="" if band is None else f"{band:.0%}",
    )


def _verdict(share: float | None, groups: Any, body: GaugeStudy) -> str:  # noqa: ANN401
    if share is None or body.limit_band is None:
        if groups is None:
            return "Its readings show no spread at all: its step is too coarse to say anything."
        enough = "enough to tell parts apart" if groups >= GROUPS else "too few to tell parts apart"
        return f"It tells {groups} groups of parts apart, {enough}; no band was named to judge it by."
    band = typed_words(body.limit_band)
    taken = f"The gauge in these hands takes {share:.0%} of a band of {band}"
    if share <= GOOD:
        return f"{taken}: good enough for it."
    if share <= FAIR:
        return f"{taken}: fair, for limits on which little hangs."
    return f"{taken}: not good enough; find a better gauge or a better way of holding it."


def _groups_words(groups: Any) -> str:  # noqa: ANN401
    if groups is None:
        return "Its readings show no spread at all, so that nothing can be said of groups."
    usual = f"; {GROUPS} or more are wanted" if groups < GROUPS else ""
    return f"It tells {groups} groups of these parts apart{usual}."
