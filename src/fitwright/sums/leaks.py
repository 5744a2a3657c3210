"""What the sums of leaking gaps share: inputs of the oil, the test of laminar flow, the cube."""

from __future__ import annotations

from typing import Final

from fitwright.sums.declaration import PutIn, Step
from fitwright.sums.forms import Amount, Given, Input

HUNDREDTH: Final = 1e-5
"""By how much wider the gap is asked for a second time: 0.01 mm."""

GAP: Final = Input(
    "gap", Amount("length", least=0.0, most=0.01), "clearance that the oil leaks through", required=True
)
OIL: Final = (
    Input(
        "pressure_drop",
        Amount("pressure"),
        "pressure on one side less that on the other",
        required=True,
    ),
    Input(
        "dynamic_viscosity",
        Amount("dynamic_viscosity", above=0.0),
        "dynamic viscosity of the oil in the gap; the sum `viscosity` gives it",
        required=True,
    ),
    Input("density", Amount("density", above=0.0), "density of the oil", default="850 kg/m3"),
)
CAUTIONS: Final = (
    "A leak is one of many in an engine: judge the pump by its maker's limits.",
    "Oil under pressure gets under the skin; keep hands away from jets.",
)


def cautions(reynolds: float, gap: float, along: float) -> tuple[str, ...]:
    """What a gap is beyond the formula for."""
    from fitwright.physics.passages.gaps import LAMINAR_GAP_REYNOLDS

    said = []
    if reynolds > LAMINAR_GAP_REYNOLDS:
        said.append("The flow is too fast to stay laminar: less leaks than computed here.")
    if gap > 0.1 * along:
        said.append("The gap is not small against its length: edges count, less leaks than computed here.")
    return tuple(said)


def laminar_step(given: Given, flow: float, across: float, reynolds: float) -> Step:
    """How the Reynolds number on the gap was found."""
    return Step(
        "Whether it is laminar",
        "density × flow / (viscosity × width), to stay below 1000",
        (
            PutIn("density", given["density"], "density", given.origin("density")),
            PutIn("flow", flow, "volume_flow", "step before"),
            PutIn("viscosity", given["dynamic_viscosity"], "dynamic_viscosity", "given"),
            PutIn("width", across, "length"),
        ),
        PutIn("Reynolds number", reynolds, "ratio"),
        "white2011",
    )
