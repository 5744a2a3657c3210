"""The crank train of a sheet as the loads of its bearings need it, with what is measured of it."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, isfinite, pi
from typing import TYPE_CHECKING, Final

import numpy as np

from fitwright.assess.oil.parameters import Parameters
from fitwright.assess.posed import posed_ratio
from fitwright.model.amount import Written
from fitwright.model.circuit import Circuit, CrankTrain, GasPressure, Reference, Size, given_sizes
from fitwright.model.fit import FitKind
from fitwright.model.throws import Crank, crank_of_sheet
from fitwright.physics.metrology.conformity import DecisionRule
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.physics.train.bearing_loads import (
    CylinderPlace,
    MovingMasses,
    TrainLoads,
    cylinder_loads,
    train_loads,
)
from fitwright.physics.train.gas_force import AMBIENT_PRESSURE, StatedCycle, gas_force, stated_pressure
from fitwright.physics.train.kinematics import CrankGeometry

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge
    from fitwright.assess.subjects import Subject

ANGLES: Final = 720
"""Crank angles at which loads are worked out, about: as many as the cylinders fire evenly among."""

COMPRESSION, EXPANSION = 1.32, 1.27
"""Polytropic exponents where the sheet states none."""


@dataclass(frozen=True, slots=True)
class StatedGas:
    """Gas pressure at one speed of the crank [rad/s, Pa, rad]."""

    angular_speed: float
    peak_pressure: float
    peak_angle: float
    intake_pressure: float
    exhaust_pressure: float

    @classmethod
    def of(cls, given: GasPressure) -> StatedGas:
        """As a sheet states it; pressures that it leaves out are about that of the air."""
        air = AMBIENT_PRESSURE
        return cls(
            given.speed.si,
            given.peak_pressure.si,
            given.peak_angle.si,
            given.intake_pressure.si if given.intake_pressure is not None else air,
            given.exhaust_pressure.si if given.exhaust_pressure is not None else 1.05 * air,
        )


@dataclass(frozen=True, slots=True)
class PosedTrain:
    """A crank train in SI, ready to be asked for its loads; `problem` says what keeps it from that.

    `places` are the cylinders, in order; `left_out` is what each throw leaves unbalanced besides the rods
    [kg], at the crank radius; `angles` how many crank angles the cycle is divided into.
    """

    sheet: CrankTrain
    geometry: CrankGeometry
    masses: MovingMasses
    bore: float
    compression_ratio: float
    gas: tuple[StatedGas, ...]
    places: tuple[CylinderPlace, ...]
    left_out: tuple[float, ...]
    throws_between_mains: tuple[int, ...]
    cycle_angle: float
    angles: int
    problem: str = ""

    def gas_at(self, angular_speed: float) -> StatedCycle:
        """The pressure curve at a speed: between those stated, or the nearest."""
        speeds = [each.angular_speed for each in self.gas]

        def between(name: str) -> float:
            return float(np.interp(angular_speed, speeds, [getattr(each, name) for each in self.gas]))

        return StatedCycle(
            between("peak_pressure"),
            between("peak_angle"),
            self.compression_ratio,
            between("intake_pressure"),
            between("exhaust_pressure"),
            self.sheet.compression_exponent or COMPRESSION,
            self.sheet.expansion_exponent or EXPANSION,
            strokes=round(self.cycle_angle / pi),
        )

    def loads(self, angular_speed: float) -> TrainLoads:
        """Loads of all mains and big ends over the cycle at a steady speed [rad/s].

        Raises
        ------
        PhysicsError
            If what is stated does not go together.
        """
        theta = np.arange(self.angles) * self.cycle_angle / self.angles
        pressure = stated_pressure(self.geometry, self.gas_at(angular_speed), theta)
        turning = {"angular_speed": angular_speed, "cycle_angle": self.cycle_angle}
        one = cylinder_loads(self.geometry, self.masses, gas_force(pressure, bore=self.bore), **turning)
        return train_loads(
            self.geometry,
            one,
            self.places,
            rotating_masses=self.left_out,
            throws_between_mains=self.throws_between_mains,
            **turning,
        )


def posed_train(judge: Judge, circuit: Circuit) -> PosedTrain | None:
    """Put it together from the sheet and from what was measured; None where the sheet describes none."""
    train = circuit.crank_train
    return None if train is None else _Train(judge, train).posed()


@dataclass(frozen=True, slots=True)
class _Train:
    judge: Judge
    train: CrankTrain

    def posed(self) -> PosedTrain:
        crank = crank_of_sheet(self.judge.sheet)
        layout = self.judge.sheet.engine.layout
        rotating = self._value(self.train.rotating_mass)
        on_throw = [sum(each.pin == pin for each in crank.throws) for pin in range(crank.pins)]
        balanced = self.train.counterweight_share * rotating
        offset = self.train.pin_offset
        return PosedTrain(
            sheet=self.train,
            geometry=CrankGeometry(
                0.5 * self._of_layout("stroke"),
                self._of_layout("rod_length"),
                offset.si if offset is not None else 0.0,
            ),
            masses=MovingMasses(self._value(self.train.reciprocating_mass), rotating, 0.0, 0.0),
            bore=self._of_layout("bore"),
            compression_ratio=self._ratio(self.train.compression_ratio),
            gas=tuple(StatedGas.of(each) for each in self.train.gas_pressures),
            places=self._places(crank),
            left_out=tuple(-balanced * count for count in on_throw),
            throws_between_mains=(crank.pins // (layout.mains - 1),) * (layout.mains - 1),
            cycle_angle=crank.cycle,
            angles=self._angles(layout.cylinders),
            problem=self._problem(),
        )

    def _angles(self, cylinders: int) -> int:
        """Half degrees where firing angles are stated; else as many as the cylinders fire evenly among."""
        return 2 * ANGLES if self.train.firing_angles else cylinders * ceil(ANGLES / cylinders)

    def _places(self, crank: Crank) -> tuple[CylinderPlace, ...]:
        stated = [each.si for each in self.train.firing_angles]
        return tuple(
            CylinderPlace(
                each.pin,
                stated[at] if stated else each.top_at,
                crank.sense * crank.axes[each.bank],
            )
            for at, each in enumerate(crank.throws)
        )

    def _of_layout(self, name: str) -> float:
        """A size of the train, or the one that the engine's layout gives."""
        given: Size | None = getattr(self.train, name) or getattr(self.judge.sheet.engine.layout, name)
        assert given is not None  # noqa: S101 - the sheet's checks see to it
        return self._value(given)

    def _value(self, size: Size) -> float:
        return Parameters(self.judge).best(size, None)

    def _ratio(self, size: Size) -> float:
        """A compression ratio as measured; where a size of it is missing, the middle of its limits."""
        if isinstance(size, Written):
            return size.si
        subject = self.judge.subjects.get(size.subject)
        if subject is not None and subject.fit_kind is FitKind.RATIO and subject.fit is not None:
            value = self._measured_ratio(subject) if subject.fit.compression else None
            if value is not None:
                return value
        return self._value(size)

    def _measured_ratio(self, subject: Subject) -> float | None:
        try:
            posed = posed_ratio(self.judge, subject)
            return posed.judged([], DecisionRule()).value if posed is not None else None
        except PhysicsError:
            return None  # its sizes contradict each other: the verdict says so

    def _problem(self) -> str:
        """Which sizes nothing is known of."""
        parameters = Parameters(self.judge)
        for _, size, rule in given_sizes(self.train):
            if isinstance(size, Reference) and rule.dimension != "ratio":
                parameters.look_up(size)
        found = [each.title for each in parameters.measured.values() if not isfinite(each.value)]
        if not isfinite(self._ratio(self.train.compression_ratio)):
            found.append("the compression ratio")
        if not found:
            return ""
        return f"Nothing is known of {', '.join(found)}: measure, or write a nominal size into the sheet."
