"""From a reading as recorded to a reading as metrology sees it: corrections and unknowns.

What readings share by their gauge stands in `setting_chains`; what they share by their sitting is added
here, each under one key (`temperature:T-02`).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from fitwright.assess.errors import GaugeNotKnownError
from fitwright.assess.setting_chains import Gauge, SettingChains, repeatability_of
from fitwright.model.dimension import Dimension, Sense
from fitwright.model.part import Material
from fitwright.model.sheet import Sheet
from fitwright.physics.metrology.readings import (
    Blade,
    BladeAnswer,
    BladeReading,
    Drag,
    ValueReading,
)
from fitwright.physics.metrology.temperature import size_at_reference
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.records.kinds import BladeObservation, Instrument, Sitting, ValueObservation
from fitwright.records.projection import BuildState, ReadingRecord

GAUGE_EXPANSION_UNCERTAINTY = 1e-6
"""Standard uncertainty of a gauge's own expansion coefficient [1/K]."""

_LENGTHS = {Sense.DIAMETRAL, Sense.RADIAL, Sense.AXIAL, Sense.LINEAR}


@dataclass(frozen=True, slots=True)
class Gauges(SettingChains):
    """Turns the readings of a build into readings of metrology.

    Where the shop changes, gauges are made anew.
    """

    sheet: Sheet
    build: BuildState

    def sitting_of(self, record: ReadingRecord) -> Sitting | None:
        """The sitting that a reading belongs to."""
        held = self.build.sittings.get(record.body.sitting or "")
        return held.body if held is not None else None

    def absent(self, record: ReadingRecord) -> str | None:
        """What a reading was taken with, if the shop does not have it: then it proves nothing."""
        observation = record.body.observation
        if isinstance(observation, BladeObservation):
            gone = next((name for name in observation.blades if self.shop.blade(name) is None), None)
            return None if gone is None else f"blade {gone}"
        sitting = self.sitting_of(record)
        try:
            instrument = self._instrument(record, observation, sitting)
        except GaugeNotKnownError as error:
            return f"instrument {error.gauge}" if error.gauge else "its instrument"
        code = self._setting_code(observation, sitting, instrument)
        return f"setting {code}" if code is not None and self.setting(code) is None else None

    def gauge(self, record: ReadingRecord) -> Gauge | None:
        """The gauge behind a value reading; None for a blade."""
        observation = record.body.observation
        if not isinstance(observation, ValueObservation):
            return None
        sitting = self.sitting_of(record)
        instrument = self._instrument(record, observation, sitting)
        setting = self.setting(self._setting_code(observation, sitting, instrument))
        return Gauge(instrument, setting, sitting)

    def _instrument(
        self, record: ReadingRecord, observation: ValueObservation, sitting: Sitting | None
    ) -> Instrument:
        code = observation.instrument
        if code is None and sitting is not None:
            dimension = self.sheet.dimensions.get(record.dimension or "")
            kinds = dimension.instruments if dimension is not None else ()
            code = next((sitting.instruments[k] for k in kinds if k in sitting.instruments), None)
        found = self.instrument(code)
        if found is None:
            raise GaugeNotKnownError(record.entry.id, code)
        return found

    def _setting_code(
        self, observation: ValueObservation, sitting: Sitting | None, instrument: Instrument
    ) -> str | None:
        if observation.setting is None and sitting is not None:
            return sitting.settings.get(instrument.code)
        return observation.setting

    def value_reading(self, record: ReadingRecord, dimension: Dimension) -> ValueReading:
        """A value reading at 20 degrees Celsius, corrected, with its unknowns."""
        observation = record.body.observation
        assert isinstance(observation, ValueObservation)  # noqa: S101  (narrowing: callers split by type)
        gauge = self.gauge(record)
        assert gauge is not None  # noqa: S101
        at = record.order
        value = observation.value.si - self._zero(gauge) + self._correction(gauge, at)
        shared = list(self.unknowns(gauge.instrument, gauge.setting, at))
        if dimension.sense in _LENGTHS:
            value, thermal = self._at_reference(value, record, dimension, gauge)
            shared.extend(thermal)
        instrument = gauge.instrument
        return ValueReading(
            key=record.entry.id,
            place=place_key(dimension, record.place),
            value=value,
            repeatability=repeatability_of(instrument),
            repeatability_degrees_of_freedom=instrument.repeatability_degrees_of_freedom or inf,
            shared=tuple(shared),
            repeatability_key=f"repeatability:{instrument.code}",
        )

    def _zero(self, gauge: Gauge) -> float:
        setting = gauge.setting
        return setting.zero.si if setting is not None and setting.zero is not None else 0.0

    def _correction(self, gauge: Gauge, at: int) -> float:
        held = self.calibration(gauge.instrument, at)
        return held.correction if held is not None else 0.0

    def _at_reference(
        self, value: float, record: ReadingRecord, dimension: Dimension, gauge: Gauge
    ) -> tuple[float, list[Shared]]:
        material = material_of(self.sheet, dimension)
        sitting, instrument = gauge.sitting, gauge.instrument
        if material is None or sitting is None:
            return value, []
        referred = size_at_reference(
            value,
            part_temperature=self._part_temperature(record, dimension, sitting),
            gauge_temperature=sitting.temperature,
            part_expansion=material.expansion,
            gauge_expansion=instrument.expansion,
        )
        part = part_of(self.sheet, dimension)
        shared = referred.shared(
            Unknown(f"expansion:{material.id}", material.expansion_uncertainty),
            Unknown(f"gauge expansion:{instrument.code}", GAUGE_EXPANSION_UNCERTAINTY),
            Unknown(f"temperature:{sitting.code}", sitting.temperature_uncertainty),
            Unknown(
                f"part and gauge difference:{sitting.code}:{part}",
                sitting.part_gauge_difference_uncertainty,
            ),
        )
        return referred.size, [one for one in shared if one.sensitivity != 0.0]

    def _part_temperature(self, record: ReadingRecord, dimension: Dimension, sitting: Sitting) -> float:
        if record.body.part_temperature is not None:
            return record.body.part_temperature
        for member in (dimension.part, *dimension.through):
            if member is not None and member in sitting.part_temperatures:
                return sitting.part_temperatures[member]
        return sitting.temperature

    def blade_reading(self, record: ReadingRecord, dimension: Dimension) -> BladeReading:
        """A blade reading with the blades' own thicknesses and the person's drag."""
        observation = record.body.observation
        assert isinstance(observation, BladeObservation)  # noqa: S101
        return BladeReading(
            key=record.entry.id,
            place=place_key(dimension, record.place),
            blades=tuple(self._blade(record, name) for name in observation.blades),
            answer=BladeAnswer(observation.answer),
            drag=self._drag(record),
        )

    def _blade(self, record: ReadingRecord, name: str) -> Blade:
        blade = self.shop.blade(name)
        if blade is None:
            raise GaugeNotKnownError(record.entry.id, name)
        return Blade(name, blade.thickness, blade.standard_uncertainty)

    def _drag(self, record: ReadingRecord) -> Drag:
        sitting = self.sitting_of(record)
        code = record.body.measured_by or (sitting.measured_by if sitting else None)
        held = self.shop.people.get(code or "")
        if held is None:
            return Drag(code or "somebody")
        return Drag(held.body.code, held.body.drag, held.body.drag_uncertainty)


def place_key(dimension: Dimension, place: str) -> str:
    """The name of one place of one dimension, unique in a build."""
    return f"{dimension.id} @ {place}"


def part_of(sheet: Sheet, dimension: Dimension) -> str | None:
    """The position whose material and temperature speak for a dimension."""
    if dimension.part is not None:
        return dimension.part
    for name in dimension.through:
        if name in sheet.parts:
            return name
        other = sheet.dimensions.get(name)
        if other is not None and other.part is not None:
            return other.part
    return None


def material_of(sheet: Sheet, dimension: Dimension) -> Material | None:
    """The material that a dimension grows with."""
    part = sheet.parts.get(part_of(sheet, dimension) or "")
    return sheet.materials.get(part.material) if part is not None else None
