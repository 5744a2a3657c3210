"""What an interference fit grips with, cold and hot; whether it still grips at its hottest is judged."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot, sqrt

from fitwright.assess.bounds import COMPUTED, VERDICTS
from fitwright.assess.chains import Chain, signed_lengths, unknowns_of_lengths
from fitwright.assess.gauges import Gauges, part_of
from fitwright.assess.results import BoundVerdict, Grip, Reason
from fitwright.assess.subjects import Subject
from fitwright.model.fit import PressFit
from fitwright.model.part import Material, TemperatureCase
from fitwright.physics.fits.interference import ElasticMaterial, holding_force, press_fit
from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.result import BoundResult, ChainResult
from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE

COLD = "cold"
STILL_GRIPS = Bound("lower", 0.0)
"""What is asked of an interference fit in every state."""


def grips(gauges: Gauges, subject: Subject, chain: Chain, result: ChainResult | None) -> tuple[Grip, ...]:
    """The grip cold and in every temperature case; none where the sheet says nothing of the parts."""
    press = subject.fit.press if subject.fit is not None else None
    if press is None or result is None or result.value is None:
        return ()
    hub, shaft = _elastic(gauges, press.hub), _elastic(gauges, press.shaft)
    diameter = _interface(gauges, press, chain)
    if hub is None or shaft is None or diameter is None:
        return ()
    joint = _Joint(press, diameter, hub, shaft)
    return tuple(joint.grip(*state) for state in _states(gauges, subject, chain, result))


def _states(
    gauges: Gauges, subject: Subject, chain: Chain, result: ChainResult
) -> Iterator[tuple[str, str, float, float]]:
    value, own = result.value or 0.0, result.standard_uncertainty or 0.0
    yield COLD, COLD, value, own
    lengths = signed_lengths(gauges, subject, chain)
    for case in gauges.sheet.temperature_cases.values() if lengths else ():
        unknowns = unknowns_of_lengths(gauges, lengths, case)
        spread = sqrt(sum((u.sensitivity * u.unknown.standard_uncertainty) ** 2 for u in unknowns))
        yield case.id, case.title, value + change_of(gauges, lengths, case), hypot(own, spread)


def change_of(gauges: Gauges, lengths: dict[tuple[str, str], float], case: TemperatureCase) -> float:
    """By how much signed lengths by (part, material) change in a temperature case [m]."""
    return sum(
        length
        * gauges.sheet.materials[material].expansion
        * (case.parts.get(part, case.default) - REFERENCE_TEMPERATURE)
        for (part, material), length in lengths.items()
    )


@dataclass(frozen=True, slots=True)
class _Joint:
    """Hub and shaft of one press fit, and the diameter at which they meet."""

    press: PressFit
    diameter: float
    hub: ElasticMaterial
    shaft: ElasticMaterial

    def grip(self, case: str, title: str, interference: float, uncertainty: float) -> Grip:
        """What this much interference gives in one state."""
        found = press_fit(
            interference,
            interface_diameter=self.diameter,
            hub_outer_diameter=self.press.hub_outer_diameter,
            hub=self.hub,
            shaft=self.shaft,
            shaft_bore=self.press.shaft_inner_diameter,
        )
        return Grip(
            case=case,
            title=title,
            interference=interference,
            standard_uncertainty=uncertainty,
            pressure=found.contact_pressure,
            hub_hoop_stress=found.hub_hoop_stress,
            hub_equivalent_stress=found.hub_equivalent_stress,
            shaft_hoop_stress=found.shaft_hoop_stress,
            holding_force=self._force(found.contact_pressure),
        )

    def _force(self, pressure: float) -> float | None:
        if self.press.length is None or self.press.friction is None:
            return None
        return holding_force(
            pressure,
            interface_diameter=self.diameter,
            length=self.press.length,
            friction_coefficient=self.press.friction,
        )


def _elastic(gauges: Gauges, part_id: str) -> ElasticMaterial | None:
    part = gauges.sheet.parts.get(part_id)
    material: Material | None = gauges.sheet.materials.get(part.material) if part else None
    if material is None or material.youngs_modulus is None or material.poisson_ratio is None:
        return None
    return ElasticMaterial(material.youngs_modulus, material.poisson_ratio, material.expansion)


def _interface(gauges: Gauges, press: PressFit, chain: Chain) -> float | None:
    members = chain.members if len(chain.members) > 1 else ()  # an interference read as such is no diameter
    of_hub = [member for member in members if part_of(gauges.sheet, member.dimension) == press.hub]
    return of_hub[0].mean() if of_hub else None


def grip_bound(case: TemperatureCase, result: BoundResult) -> BoundVerdict:
    """The bound of the grip, judged in the case where it is loosest."""
    return BoundVerdict(
        side="lower",
        limit=0.0,
        written="0 (still grips)",
        governs=True,
        source=f"grip at {case.title}, computed",
        source_kind=COMPUTED,
        place_in_source=None,
        applies_to="new",
        temperature_case=case.id,
        probability=result.probability,
        verdict=VERDICTS[result.verdict],
        reason=Reason(result.reason.value) if result.reason else None,
        value=result.value,
        standard_uncertainty=result.standard_uncertainty,
        acceptance_limit=result.acceptance_limit,
        places=result.places,
    )
