"""The oil and its circuit, assumed: from the sump through pump and filter to all that draws oil."""

from __future__ import annotations

from typing import Final

from fitwright.starter.assumed import Assumed, rpm
from fitwright.starter.blocks import Section, TableBlock
from fitwright.starter.plan import Plan
from fitwright.starter.subjects.oil_draws import draws
from fitwright.starter.subjects.oil_supply import supply

TITLE: Final = "Oil and its circuit"
ASSUMED: Final = "the oil, the speeds, and every size in the circuit that is no id of a fit or dimension"
NO_PUMP: Final = (
    "Left out: this engine has no oil pump (oil goes with the fuel, or is lost), so it has no oil pressure",
    "and no circuit to compute. With a pump of its own, answer which pump, and it is written here.",
)


def oil(plan: Plan) -> Section:
    """The whole circuit; nothing where there is no pump."""
    if plan.pump == "none":
        return Section(title=TITLE, comment=NO_PUMP)
    return Section(
        title=TITLE,
        comment=(
            "ASSUMED: a usual circuit for this layout, sizes scaled with the bore. Replace them; where the",
            "id of a fit stands, what you measure counts. Take out what your engine does not have.",
            "Nodes have names of your own; sump is at no pressure. What is computed from this is said to be",
            "assumed until you take the line assumed = ... out.",
            *_feeds(plan),
        ),
        tables=(_oil(plan), _circuit(plan), *supply(plan), *draws(plan)),
    )


def _feeds(plan: Plan) -> tuple[str, ...]:
    if plan.plain:
        return (
            "No bearing loads are stated: write load = ... for a film to be judged. Nobody can assume masses",
            "and gas pressures: [circuit.crank_train], left out here, gives films over the cycle by them.",
        )
    return ("Rolling bearings make no pressure: metered holes feed them, and set what they draw.",)


def _oil(plan: Plan) -> TableBlock:
    grade = Assumed(plan).grade
    return TableBlock(
        section="oils",
        key="planned",
        values={"title": f"Oil of grade {grade}, assumed", "planned": True, "grade": grade},
        remarks={"grade": "assumed"},
        comment=(
            "By its data sheet in place of the grade, which gives only the middle of a range:",
            'kinematic_viscosity_40 = "105 mm2/s", kinematic_viscosity_100 = "14.4 mm2/s", density_15 = ...',
        ),
    )


def _circuit(plan: Plan) -> TableBlock:
    assumed = Assumed(plan)
    hot = "110 degC" if plan.air_cooled or plan.competition else "100 degC"
    return TableBlock(
        section="circuit",
        key="",
        values={
            "gauge": "gallery",
            "idle_speed": rpm(assumed.idle_speed),
            "top_speed": rpm(assumed.top_speed),
            "oil_temperatures": ("80 degC", hot),
            "assumed": ASSUMED,
        },
        remarks={
            "gauge": "node where your gauge reads",
            "idle_speed": "assumed",
            "top_speed": "assumed",
            "oil_temperatures": "assumed",
            "assumed": "take out what you have replaced",
        },
    )
