"""The order of work from washed parts to the kit: measured, built on trial, stripped and laid out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.plan import Plan
from fitwright.starter.work.found import Found
from fitwright.starter.work.step_block import StepBlock

MEASURING: Final = "Washing and measuring"
TRIAL: Final = "Trial build"


def measuring(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """Steps before anything is built for good."""
    yield StepBlock(
        key="washed",
        title="Parts washed, every passage brushed and blown through",
        stage=MEASURING,
        eye_checks=(
            *found.eye_checks("crank", "crack_test", "drillings"),
            *found.eye_checks("mains", "galleries_clean"),
            *found.eye_checks("cylinders", "honing_washed"),
            *found.eye_checks("chambers", "passages"),
        ),
        photos=(("passages", "Light, or a brush, seen through the passages."),),
        cautions=("solvents", "compressed_air", "lifting"),
    )
    yield from _bottom_end(plan, found)
    yield from _trials(found)
    yield StepBlock(
        key="kit",
        title="Stripped, washed again, and laid out in the order of assembly",
        stage="Kit",
        after=("trial.bottom_end", "trial.top_end", "trial.oil_pump"),
        photos=(("laid_out", "Fasteners bagged by joint, dowels counted."),),
        cautions=("solvents", "compressed_air"),
        note="Dates of sealant and threadlocker looked at.",
    )


def _bottom_end(plan: Plan, found: Found) -> Iterator[StepBlock]:
    if not found.has("mains"):
        return
    yield StepBlock(
        key="bottom_end.measured",
        title="Crank, bearings, rods and cylinders measured",
        stage=MEASURING,
        after=("washed",),
        fits=found.fits("crank", "mains", "big_ends", "cylinders"),
        eye_checks=(
            *found.eye_checks("crank", "fillets", "pins_pressed"),
            *found.eye_checks("mains", "contact"),
        ),
        cautions=("lifting", *(("hot_fitting",) if not plan.plain else ())),
        comment=("Fits of class normal may wait for less: take out of the list what your job leaves out.",),
    )
    yield StepBlock(
        key="trial.bottom_end",
        title="Bottom end built on trial",
        stage=TRIAL,
        after=("bottom_end.measured",),
        fits=found.fits("crank_in_block", "deck"),
        eye_checks=(*found.eye_checks("crank_in_block"), *found.eye_checks("deck")),
        uses=("engine_oil",),
        cautions=("engine_stand", "rotating_parts"),
    )


def _trials(found: Found) -> Iterator[StepBlock]:
    if found.has("chambers"):
        yield StepBlock(
            key="trial.top_end",
            title="Head measured, and built on trial",
            stage=TRIAL,
            after=("washed", "trial.bottom_end"),
            fits=found.fits(
                "chambers", "guides_and_seats", "springs", "camshafts", "valve_gear", "trial_build", "ports"
            ),
            eye_checks=(
                *found.eye_checks("chambers", "face_flat"),
                *found.eye_checks("guides_and_seats"),
                *found.eye_checks("camshafts"),
                *found.eye_checks("valve_gear", "faces", "sweep"),
                *found.eye_checks("trial_build"),
                *found.eye_checks("ports", "chamfered", "ring_pegs"),
            ),
            cautions=(*(("springs",) if found.has("springs") else ()), "rotating_parts"),
        )
    if found.has("pump"):
        yield StepBlock(
            key="trial.oil_pump",
            title="Oil pump, its drive and its pickup built on trial",
            stage=TRIAL,
            after=("washed", "trial.bottom_end"),
            fits=found.fits("pump", "pump_drive", "relief", "pickup"),
            eye_checks=(*found.eye_checks("pump", "edges"), *found.eye_checks("relief", "falls", "seat")),
            cautions=("springs",),
        )
