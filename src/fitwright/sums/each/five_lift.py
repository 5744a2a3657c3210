"""Repeatability at the bench: the gauge lifted off and put on again at one place."""

from __future__ import annotations

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Given, Input, Several


def _compute(given: Given) -> Found:
    from fitwright.physics.metrology.five_lift import repeat_study

    study = repeat_study(given["indications"], limit_band=given["limit_band"], confidence=given["confidence"])
    return Found(
        {
            "mean": study.mean,
            "repeatability_standard_deviation": study.standard_deviation,
            "degrees_of_freedom": study.degrees_of_freedom,
            "range": study.indication_range,
            "repeatability_interval": (study.lower_standard_deviation, study.upper_standard_deviation),
            "range_share_of_limit_band": study.range_share,
            "spread_share_of_limit_band": study.spread_share,
        },
        (
            Step(
                "Repeatability of one reading",
                "root of the sum of squared deviations from the mean over (readings − 1)",
                tuple(
                    PutIn(f"indication {n}", value, "length", "given")
                    for n, value in enumerate(given["indications"], start=1)
                ),
                PutIn("standard deviation", study.standard_deviation, "length"),
                "jcgm100_2008",
            ),
            Step(
                "How well that is known",
                "root of (readings − 1) / chi square, at both ends of the confidence interval",
                (
                    PutIn("degrees of freedom", study.degrees_of_freedom, "ratio"),
                    PutIn("confidence", study.confidence, "ratio", given.origin("confidence")),
                ),
                PutIn("largest standard deviation", study.upper_standard_deviation, "length"),
                "jcgm100_2008",
            ),
        ),
    )


SUM = Sum(
    name="five-lift",
    words=("repeatability", "gage", "gauge check", "lift off"),
    title="Five-lift repeat",
    text="Repeatability from indications that one person took at one place, lifting the gauge each time.",
    inputs=(
        Input(
            "indications",
            Several(Amount("length", typed_in=SIZE), least=2),
            "the indications; five are customary",
            required=True,
        ),
        Input(
            "limit_band",
            Amount("length", above=0.0),
            "width between the limits that the gauge is to judge",
            usual=True,
        ),
        Input(
            "confidence",
            Amount("ratio", above=0.0, most=0.9999),
            "confidence level of the interval",
            default=0.95,
        ),
    ),
    outputs=(
        Output("mean", "mean indication", "length", leads=True),
        Output("repeatability_standard_deviation", "of one indication", "length", leads=True),
        Output("degrees_of_freedom", "indications less one", "ratio"),
        Output("range", "largest less smallest indication", "length", leads=True),
        Output("repeatability_interval", "confidence interval of the standard deviation", "length"),
        Output("range_share_of_limit_band", "range over the width between the limits", "ratio"),
        Output("spread_share_of_limit_band", "six standard deviations over that width", "ratio"),
    ),
    compute=_compute,
    source="jcgm100_2008",
    example={
        "indications": ["56.001 mm", "56.000 mm", "56.002 mm", "56.001 mm", "56.001 mm"],
        "limit_band": "0.025 mm",
    },
)
