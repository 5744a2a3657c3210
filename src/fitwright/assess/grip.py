"""What an interference fit grips with, cold and hot; whether it still grips at its hottest is judged."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot, sqrt

from fitwright.assess.bounds import VERDICTS
from fitwright.assess.chains import Chain, lengths_of, unknowns_of_lengths
from fitwright.assess.gauges import Gauges, part_of
from fitwright.assess.results import BoundVerdict, Grip, Reason, Verdict
from fitwright.assess.subjects import Subject
from fitwright.model.fit import PressFit
from fitwright.model.part import REFERENCE_TEMPERATURE, Material, TemperatureCase
from fitwright.physics.fits.interference import ElasticMaterial, holding_force, press_fit
from fitwright.physics.metrology.conformity import DecisionRule, probability_holds
from fitwright.physics.metrology.result import ChainResult

COLD = "cold"


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
    return tuple(joint.grip(*state) for state in _states(gauges, chain, result))


def _states(gauges: Gauges, chain: Chain, result: ChainResult) -> Iterator[tuple[str, str, float, float]]:
    value, own = result.value or 0.0, result.standard_uncertainty or 0.0
    yield COLD, COLD, value, own
    lengths = lengths_of(gauges, chain)
    for case in gauges.sheet.temperature_cases.values():
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
    for member in chain.members:
        if part_of(gauges.sheet, member.dimension) == press.hub:
            return member.mean()
    return None


def grip_bounds(found: Sequence[Grip], rule: DecisionRule) -> list[BoundVerdict]:
    """One more bound: at its hottest state the fit must still have interference."""
    if len(found) < 2:
        return []
    loosest = min(found, key=lambda grip: grip.interference)
    holds = float(probability_holds("lower", 0.0, loosest.interference, loosest.standard_uncertainty))
    verdict = VERDICTS[rule.verdict(holds, holds)]
    return [
        BoundVerdict(
            side="lower",
            limit=0.0,
            written="0 (still grips)",
            governs=True,
            source=f"grip at {loosest.title}, computed",
            source_kind="computed",
            place_in_source=None,
            applies_to="new",
            temperature_case=loosest.case,
            probability=holds,
            verdict=verdict,
            reason=Reason.AT_THE_LIMIT if verdict is Verdict.UNPROVEN else None,
            value=loosest.interference,
            standard_uncertainty=loosest.standard_uncertainty,
            acceptance_limit=None,
        )
    ]
