"""Pressure lost at the edge through which oil enters a drilling, and what rounding it gains."""

from __future__ import annotations

import math
from typing import Final

from fitwright.sums.declaration import Found, Output, PutIn, Row, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Choice, Given, Input

_AUTHORS: Final = ("rennels", "crane", "harris", "idelchik", "miller", "swamee")
_TURBULENT: Final = 1e4
_SPREAD: Final = 1.0 / math.sqrt(12.0)


def _compute(given: Given) -> Found:
    ratio, head = given["edge_radius"] / given["diameter"], _head(given)
    author = given["author"]
    rounded, sharp = _loss(ratio, author), _loss(0.0, author)
    least, most = _range(ratio)
    reynolds = _reynolds(given)
    return Found(
        {
            "loss_coefficient": rounded,
            "loss_coefficient_interval": (least, most),
            "pressure_drop": rounded * head,
            "pressure_drop_interval": (least * head, most * head),
            "standard_uncertainty": _SPREAD * (most - least) * head,
            "pressure_drop_of_a_sharp_edge": sharp * head,
            "gained_by_rounding": (sharp - rounded) * head,
            "gained_by_rounding_interval": _gains(ratio, head),
            "speed": _speed(given),
            "reynolds_number": reynolds,
            "authors": tuple(_row(each, ratio, head) for each in _AUTHORS),
        },
        _steps(given, ratio, head, rounded, sharp),
        tuple(_cautions(ratio, reynolds)),
    )


def _speed(given: Given) -> float:
    return float(given["flow"]) / (0.25 * math.pi * float(given["diameter"]) ** 2)


def _head(given: Given) -> float:
    """Pressure that the speed stands for [Pa]."""
    return 0.5 * float(given["density"]) * _speed(given) ** 2


def _loss(ratio: float, author: str) -> float:
    from fitwright.physics.passages.edges import entrance_loss_coefficient

    return float(entrance_loss_coefficient(ratio, author))  # type: ignore[arg-type]  # a choice of the sum


def _range(ratio: float) -> tuple[float, float]:
    from fitwright.physics.passages.edges import entrance_loss_range

    least, most = entrance_loss_range(ratio)
    return float(least), float(most)


def _reynolds(given: Given) -> float | None:
    viscosity = given["dynamic_viscosity"]
    if viscosity is None:
        return None
    return float(given["density"] * _speed(given) * given["diameter"] / viscosity)


def _gain(author: str, ratio: float, head: float) -> float:
    return (_loss(0.0, author) - _loss(ratio, author)) * head


def _gains(ratio: float, head: float) -> tuple[float, float]:
    each = [_gain(author, ratio, head) for author in _AUTHORS]
    return min(each), max(each)


def _row(author: str, ratio: float, head: float) -> Row:
    loss = _loss(ratio, author)
    return {
        "author": author.title(),
        "loss_coefficient": loss,
        "pressure_drop": loss * head,
        "gained_by_rounding": _gain(author, ratio, head),
    }


def _cautions(ratio: float, reynolds: float | None) -> list[str]:
    said = ["Authors differ, most where an edge is well rounded: hold the range against what is at stake."]
    if reynolds is not None and reynolds < _TURBULENT:
        said.append("The flow is slower than these loss coefficients were measured at: more is lost.")
    if ratio > 0.3:
        said.append("The edge is rounder than the tables go; their last value is used.")
    return said


def _steps(given: Given, ratio: float, head: float, rounded: float, sharp: float) -> tuple[Step, ...]:
    return (
        Step(
            "Pressure that the speed stands for",
            "density / 2 × (flow / (π / 4 × d²))²",
            (
                PutIn("flow", given["flow"], "volume_flow", "given"),
                PutIn("d, diameter", given["diameter"], "length", "given"),
                PutIn("density", given["density"], "density", given.origin("density")),
            ),
            PutIn("pressure of the speed", head, "pressure"),
            "white2011",
        ),
        Step(
            "Loss coefficient of the edge",
            f"by {given['author'].title()}, from edge radius / diameter",
            (
                PutIn("edge radius", given["edge_radius"], "length", given.origin("edge_radius")),
                PutIn("edge radius / diameter", ratio, "ratio"),
                PutIn("loss coefficient of a sharp edge", sharp, "ratio"),
            ),
            PutIn("loss coefficient", rounded, "ratio"),
            _SOURCES[given["author"]],
        ),
        Step(
            "Pressure drop at the edge",
            "loss coefficient × pressure of the speed",
            (
                PutIn("loss coefficient", rounded, "ratio", "step before"),
                PutIn("pressure of the speed", head, "pressure", "step before"),
            ),
            PutIn("pressure drop", rounded * head, "pressure"),
            "white2011",
        ),
    )


_SOURCES: Final = {
    "rennels": "rennels2012",
    "crane": "crane2009",
    "harris": "harris1930",
    "idelchik": "idelchik1966",
    "miller": "miller1990",
    "swamee": "swamee2008",
}

SUM = Sum(
    name="inlet-edge-loss",
    words=("drilling", "radius the edge", "smoothing", "oil gallery", "port", "pickup", "blend"),
    title="Loss at an inlet edge",
    text="Pressure lost where oil enters a drilling, by named authors, and what rounding the edge gains.",
    inputs=(
        Input(
            "diameter",
            Amount("length", above=0.0, typed_in=SIZE),
            "diameter of the drilling",
            required=True,
        ),
        Input("flow", Amount("volume_flow", least=0.0), "flow through it", required=True),
        Input(
            "edge_radius",
            Amount("length", least=0.0, typed_in=SIZE),
            "radius of the edge",
            default="0 mm",
            usual=True,
        ),
        Input("density", Amount("density", above=0.0), "density of the oil", default="850 kg/m3"),
        Input(
            "dynamic_viscosity",
            Amount("dynamic_viscosity", above=0.0),
            "dynamic viscosity of the oil, to see whether the flow is turbulent",
            usual=True,
        ),
        Input("author", Choice(_AUTHORS), "whose loss coefficient is used", default="rennels", usual=True),
    ),
    outputs=(
        Output("loss_coefficient", "of the edge, by the author", "ratio"),
        Output("loss_coefficient_interval", "smallest and largest over all authors", "ratio"),
        Output("pressure_drop", "at the edge, by the author", "pressure", leads=True),
        Output("pressure_drop_interval", "smallest and largest over all authors", "pressure"),
        Output("standard_uncertainty", "of the pressure drop, from the authors' range", "pressure"),
        Output("pressure_drop_of_a_sharp_edge", "by the same author", "pressure"),
        Output("gained_by_rounding", "pressure that the radius saves", "pressure", leads=True),
        Output("gained_by_rounding_interval", "smallest and largest over all authors", "pressure"),
        Output("speed", "mean speed in the drilling", "speed"),
        Output("reynolds_number", "in the drilling", "ratio"),
        Output(
            "authors",
            "each author",
            columns=(
                Output("author", "whose value it is"),
                Output("loss_coefficient", "of the edge", "ratio"),
                Output("pressure_drop", "at the edge", "pressure"),
                Output("gained_by_rounding", "what the radius saves", "pressure"),
            ),
        ),
    ),
    compute=_compute,
    source="rennels2012",
    cautions=(
        "Never round an edge that seals or times the flow, such as the land between a pump's ports.",
        "Chips in an oil way destroy bearings: wash every way after cutting. The maker's manual governs.",
    ),
    example={
        "diameter": "8 mm",
        "flow": "30 L/min",
        "edge_radius": "0.8 mm",
        "dynamic_viscosity": "10 mPa s",
    },
)
