"""From a reading as recorded to a reading as metrology sees it: corrections and unknowns.

What two readings share has one key: `calibration:M3:C-M3`, `setting:S-014`, `transfer:S-014`,
`temperature:sitting-2`. So the error of a micrometer that set the bore gauge and also measured the
journal cancels in their difference, and nothing else does.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import inf, sqrt

from fitwright.assess.errors import GaugeNotKnownError
from fitwright.model.dimension import Dimension, Sense
from fitwright.model.part import Material
from fitwright.model.sheet import Sheet
from fitwright.physics.metrology.drift import checked_setting
from fitwright.physics.metrology.readings import (
    Blade,
    BladeAnswer,
    BladeReading,
    Drag,
    ValueReading,
)
from fitwright.physics.metrology.temperature import size_at_reference
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.records.kinds import (
    BladeObservation,
    Calibration,
    CheckBack,
    Instrument,
    Setting,
    Sitting,
    ValueObservation,
)
from fitwright.records.projection import (
    BuildState,
    ReadingRecord,
    Recorded,
    ShopState,
)

GAUGE_EXPANSION_UNCERTAINTY = 1e-6
"""Standard uncertainty of a gauge's own expansion coefficient [1/K]."""

_LENGTHS = {Sense.DIAMETRAL, Sense.RADIAL, Sense.AXIAL, Sense.LINEAR}
_RESOLUTION = sqrt(12.0)


@dataclass(frozen=True, slots=True)
class Gauge:
    """The instrument, its setting and the sitting behind one value reading."""

    instrument: Instrument
    setting: Setting | None
    sitting: Sitting | None

    @property
    def unset(self) -> bool:
        """Whether this is a comparison gauge that nobody said was set: it proves nothing."""
        return self.instrument.comparison and self.setting is None

    @property
    def set_otherwise(self) -> bool:
        """Whether the setting named is one of another instrument."""
        return self.setting is not None and self.setting.instrument != self.instrument.code


@dataclass(frozen=True, slots=True)
class Gauges:
    """Turns the readings of a build into readings of metrology.

    Hundreds of readings share a few settings: what a setting brings with it is worked out once. Where the
    shop changes, gauges are made anew.
    """

    sheet: Sheet
    shop: ShopState
    build: BuildState
    _shared: dict[tuple[str, str | None, int | None], tuple[Shared, ...]] = field(
        default_factory=dict, repr=False, compare=False
    )

    def sitting_of(self, record: ReadingRecord) -> Sitting | None:
        """The sitting that a reading belongs to."""
        held = self.build.sittings.get(record.body.sitting or "")
        return held.body if held is not None else None

    def instrument(self, code: str | None) -> Instrument | None:
        """An instrument of the shop by its code."""
        held = self.shop.instruments.get(code or "")
        return held.body if held is not None else None

    def setting(self, code: str | None) -> Setting | None:
        """A setting by its code."""
        held = self.shop.settings.get(code or "")
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

    def calibration(self, instrument: Instrument, at: int | None = None) -> Calibration | None:
        """The calibration in force at an entry (or now), in the newest state of that calibration."""
        held = self.shop.calibration_of(instrument.code, at=at)
        if held is None:
            return None
        same = [
            each.body
            for each in self.shop.all_calibrations[instrument.code]
            if each.body.code == held.body.code
        ]
        return same[-1]

    def last_setting(self, instrument: Instrument) -> Setting | None:
        """The setting that an instrument stands in now, as far as the shop says."""
        own = [held for held in self.shop.settings.values() if held.body.instrument == instrument.code]
        return max(own, key=lambda held: held.entry.seq).body if own else None

    def unknowns(
        self, instrument: Instrument, setting: Setting | None, at: int | None = None
    ) -> tuple[Shared, ...]:
        """What readings with an instrument in a setting share: its calibration, its setting, its master's."""
        key = (
            instrument.code,
            setting.code if setting is not None else None,
            self._stretch(instrument, setting, at),
        )
        found = self._shared.get(key)
        if found is None:
            every = [self._calibration(instrument, at)]
            if setting is not None:
                every.extend(self._setting_chain(setting, instrument, at))
            found = tuple(one for one in every if one.unknown.standard_uncertainty > 0.0)
            self._shared[key] = found
        return found

    def _stretch(self, instrument: Instrument, setting: Setting | None, at: int | None) -> int | None:
        """Readings of one stretch of time share the same unknowns: since its setting and its calibration."""
        if at is None:
            return None
        if setting is not None and at < self._moment(setting, None):
            return at
        held = self.shop.calibration_of(instrument.code, at=at)
        return held.entry.seq if held is not None else 0

    def _calibration(self, instrument: Instrument, at: int | None) -> Shared:
        held = self.calibration(instrument, at)
        if held is None:
            unknown = Unknown(f"calibration:{instrument.code}", instrument.calibration_uncertainty)
        else:
            unknown = Unknown(
                f"calibration:{instrument.code}:{held.code}",
                held.standard_uncertainty,
                held.degrees_of_freedom or inf,
            )
        return Shared(unknown, 1.0)

    def _setting_chain(self, setting: Setting, instrument: Instrument, at: int | None) -> list[Shared]:
        found: list[Shared] = []
        for each, own in self._settings_behind(setting, instrument):
            found.append(Shared(self._setting_unknown(each, own), 1.0))
            if own.transfer_uncertainty > 0.0:
                transfer = Unknown(f"transfer:{each.code}", own.transfer_uncertainty)
                found.append(Shared(transfer, 1.0))
            at = self._moment(each, at)
            master = self.instrument(each.master)
            if master is not None:
                found.append(self._calibration(master, at))
        return found

    def _settings_behind(
        self, setting: Setting | None, instrument: Instrument | None
    ) -> Iterator[tuple[Setting, Instrument]]:
        """A setting, that of its master, and so on; each once."""
        seen: set[str] = set()
        while setting is not None and instrument is not None and setting.code not in seen:
            seen.add(setting.code)
            yield setting, instrument
            instrument, setting = self.instrument(setting.master), self.setting(setting.master_setting)

    def unsound(self, gauge: Gauge) -> str | None:
        """Why a setting proves nothing: what it was set in is not known, or is itself again."""
        last = None
        for last, _ in self._settings_behind(gauge.setting, gauge.instrument):
            if last.master is not None and self.instrument(last.master) is None:
                return f"{last.master}, in which setting {last.code} was made, is not in the shop"
            if last.master_setting is not None and self.setting(last.master_setting) is None:
                return f"setting {last.master_setting}, in which {last.code} was made, is not in the shop"
        if last is not None and last.master is not None and last.master_setting is not None:
            return f"setting {last.code} was made, by way of others, in itself"
        return None

    def _moment(self, setting: Setting, at: int | None) -> int:
        """When a master's error passed into a setting: as the setting was made, not at a later reading."""
        made = self.shop.ledger.order(self.shop.settings[setting.code].entry.id)
        return made if at is None else min(made, at)

    def _setting_unknown(self, setting: Setting, instrument: Instrument) -> Unknown:
        """A setting's error, widened by the largest drift that its check-backs found."""
        own = Unknown(
            f"setting:{setting.code}",
            setting.standard_uncertainty,
            setting.degrees_of_freedom or inf,
        )
        backs = self.shop.check_backs.get(setting.code, ())
        if not backs:
            return own
        largest = max((back.body.drift.si for back in backs), key=abs)
        return checked_setting(own, largest, repeatability=repeatability_of(instrument)).setting

    def drifted(self, gauge: Gauge) -> Recorded[CheckBack] | None:
        """The check-back that found the setting (or its master's) further off than explained."""
        behind = self._settings_behind(gauge.setting, gauge.instrument)
        found = (self._drift_of(setting, instrument) for setting, instrument in behind)
        return next((each for each in found if each is not None), None)

    def _drift_of(self, setting: Setting, instrument: Instrument) -> Recorded[CheckBack] | None:
        """The last check-back that showed more than looking at the master twice explains."""
        own = Unknown(f"setting:{setting.code}", setting.standard_uncertainty)
        once = repeatability_of(instrument)
        for back in reversed(self.shop.check_backs.get(setting.code, ())):
            if checked_setting(own, back.body.drift.si, repeatability=once).shows_drift:
                return back
        return None

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


def repeatability_of(instrument: Instrument) -> float:
    """What one reading adds of its own: never less than the division itself shows [SI]."""
    return max(instrument.repeatability, instrument.resolution / _RESOLUTION)


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
