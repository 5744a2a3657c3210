"""A crossed gauge study: what the gauge, its users and the parts contribute to the spread of readings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.crossed import Crossed
from fitwright.sums.declaration import Computed, Found, Output, PutIn, Row, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Given, Group, Input, Several, Words

if TYPE_CHECKING:
    from fitwright.physics.metrology.gauge_study import GaugeStudy

_SHARES = ("repeatability", "reproducibility", "gauge", "parts", "total")
_METHODS = (("by_variance", "analysis of variance"), ("by_ranges", "averages and ranges"))


def _compute(given: Given) -> Found:
    from fitwright.physics.metrology.gauge_study import crossed_readings, study_by_ranges, study_by_variance

    rows = given["readings"]
    readings = crossed_readings(
        [each["person"] for each in rows],
        [each["part"] for each in rows],
        [each["indication"] for each in rows],
    )
    band = given["limit_band"]
    variance = study_by_variance(readings, pooling_level=given["pooling_level"], limit_band=band)
    ranges = study_by_ranges(readings, limit_band=band)
    values: dict[str, Computed] = {
        **_deviations(variance, "by_variance"),
        **_deviations(ranges, "by_ranges"),
        "distinct_categories_by_variance": variance.distinct_categories,
        "distinct_categories_by_ranges": ranges.distinct_categories,
        "interaction_pooled": variance.interaction_pooled,
        "variance_table": tuple(
            {
                "source": row.source,
                "degrees_of_freedom": row.degrees_of_freedom,
                "sum_of_squares": row.sum_of_squares,
                "mean_square": row.mean_square,
                "f_ratio": row.f_ratio,
                "significance": row.significance,
            }
            for row in variance.table
        ),
        "shares": (*_shares(variance, "analysis of variance"), *_shares(ranges, "averages and ranges")),
    }
    people, parts, repeats = readings.shape
    return Found(values, _working(given, variance, ranges, (people, parts, repeats)))


def _deviations(study: GaugeStudy, method: str) -> dict[str, Computed]:
    return {f"{name}_{method}": getattr(study, name).standard_deviation for name in _SHARES}


def _shares(study: GaugeStudy, method: str) -> list[Row]:
    shares = ((name, getattr(study, name)) for name in _SHARES)
    return [
        {
            "method": method,
            "source": name,
            "standard_deviation": share.standard_deviation,
            "degrees_of_freedom": share.degrees_of_freedom,
            "share_of_total": share.share_of_total,
            "share_of_limit_band": share.share_of_limit_band,
        }
        for name, share in shares
    ]


def _working(
    given: Given, variance: GaugeStudy, ranges: GaugeStudy, shape: tuple[int, int, int]
) -> tuple[Step, ...]:
    counts = (
        PutIn("readings", len(given["readings"]), "ratio", "given"),
        *(
            PutIn(name, number, "ratio", "counted")
            for name, number in zip(("people", "parts", "repeats"), shape, strict=True)
        ),
    )
    squares = tuple(PutIn(f"mean square of {row.source}", row.mean_square, "area") for row in variance.table)
    pooled = "taken into repeatability" if variance.interaction_pooled else "kept apart"
    return (
        Step(
            f"By analysis of variance (interaction {pooled})",
            "repeatability² = mean square of repeats; reproducibility² = (people − interaction)"
            " / (parts × repeats) + (interaction − repeats) / repeats; a negative variance counts as zero",
            (
                *counts,
                *squares,
                PutIn("pooling level", given["pooling_level"], "ratio", given.origin("pooling_level")),
            ),
            PutIn("gauge standard deviation", variance.gauge.standard_deviation, "length"),
            "aiag_msa_2010",
        ),
        Step(
            "By averages and ranges",
            "repeatability = K1 × mean range; reproducibility² = (K2 × spread of people's means)²"
            " − repeatability² / (parts × repeats)",
            counts,
            PutIn("gauge standard deviation", ranges.gauge.standard_deviation, "length"),
            "aiag_msa_2010",
        ),
        Step(
            "Distinct categories",
            "whole part of 1.41 × parts / gauge, at least one",
            (
                PutIn("parts", variance.parts.standard_deviation, "length"),
                PutIn("gauge", variance.gauge.standard_deviation, "length"),
            ),
            PutIn("distinct categories", variance.distinct_categories, "ratio"),
            "aiag_msa_2010",
        ),
    )


_INDICATION = Amount("length", typed_in=SIZE)
_READING = Group(
    (
        Input("person", Words(), "who took it", required=True),
        Input("part", Words(), "of which part", required=True),
        Input("indication", _INDICATION, "the reading", required=True),
    )
)
_STARTS = ";builder;builder;apprentice;apprentice\n" + "\n".join(f"{part};;;;" for part in range(1, 6))
_TITLES = {
    "repeatability": "of one person on one part",
    "reproducibility": "between people, their interaction with parts included",
    "gauge": "repeatability and reproducibility together",
    "parts": "between parts",
    "total": "all together",
}

SUM = Sum(
    name="gauge-study",
    words=("gage", "repeatability and reproducibility", "measurement system", "spread"),
    title="Crossed gauge study",
    text="Repeatability and reproducibility from a study in which every person measured every part equally"
    " often, by analysis of variance and by averages and ranges.",
    inputs=(
        Input(
            "readings",
            Crossed(Several(_READING, least=8), _INDICATION, _STARTS),
            "all readings, a part's repeats in their order; or a table of them",
            required=True,
        ),
        Input(
            "limit_band",
            Amount("length", above=0.0),
            "width between the limits that the gauge is to judge",
            usual=True,
        ),
        Input(
            "pooling_level",
            Amount("ratio", least=0.0, most=1.0),
            "significance above which the interaction is taken into repeatability",
            default=0.25,
        ),
    ),
    outputs=(
        *(
            Output(
                f"{name}_{key}",
                f"standard deviation {_TITLES[name]}, by {method}",
                "length",
                leads=name != "total" and key == _METHODS[0][0],
            )
            for key, method in _METHODS
            for name in _SHARES
        ),
        *(
            Output(
                f"distinct_categories_{key}",
                f"groups of parts that the gauge tells apart, by {method}",
                "ratio",
            )
            for key, method in _METHODS
        ),
        Output("interaction_pooled", "whether the interaction went into repeatability"),
        Output(
            "variance_table",
            "the analysis of variance",
            columns=(
                Output("source", "source of variation"),
                Output("degrees_of_freedom", "degrees of freedom", "ratio"),
                Output("sum_of_squares", "sum of squared deviations", "area"),
                Output("mean_square", "sum over degrees of freedom", "area"),
                Output("f_ratio", "ratio to what it is tested against", "ratio"),
                Output("significance", "probability of a larger ratio by chance", "ratio"),
            ),
        ),
        Output(
            "shares",
            "each source, by both methods",
            columns=(
                Output("method", "how it was evaluated"),
                Output("source", "source of variation"),
                Output("standard_deviation", "its standard deviation", "length"),
                Output("degrees_of_freedom", "effective degrees of freedom", "ratio"),
                Output("share_of_total", "standard deviation over the total", "ratio"),
                Output("share_of_limit_band", "six standard deviations over the limit band", "ratio"),
            ),
        ),
    ),
    compute=_compute,
    source="aiag_msa_2010",
    example={
        "readings": [
            {"person": person, "part": part, "indication": f"{indication} mm"}
            for person, part, indications in (
                ("builder", "1", (55.991, 55.992)),
                ("builder", "2", (55.985, 55.985)),
                ("builder", "3", (55.998, 55.997)),
                ("apprentice", "1", (55.993, 55.992)),
                ("apprentice", "2", (55.986, 55.985)),
                ("apprentice", "3", (55.999, 55.998)),
            )
            for indication in indications
        ],
        "limit_band": "0.020 mm",
    },
)
