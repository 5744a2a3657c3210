"""What a gauge in a setting brings with it: calibration, setting, transfer, and those of its master.

What two readings share has one key: `calibration:M3:C-M3`, `setting:S-014`, `transfer:S-014`. So the
error of a micrometer that set the bore gauge and also measured the journal cancels in their difference,
and nothing else does. All of this is the shop's and needs no build.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import inf, sqrt

from fitwright.physics.metrology.drift import checked_setting
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.records.kinds import Calibration, CheckBack, Instrument, Setting, Sitting
from fitwright.records.projection import Recorded, ShopState

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
class SettingChains:
    """The gauges of a shop with what stands behind each.

    Hundreds of readings share a few settings: what a setting brings with it is worked out once.
    """

    shop: ShopState
    _shared: dict[tuple[str, str | None, int | None], tuple[Shared, ...]] = field(
        default_factory=dict, repr=False, compare=False, kw_only=True
    )

    def instrument(self, code: str | None) -> Instrument | None:
        """An instrument of the shop by its code."""
        held = self.shop.instruments.get(code or "")
        return held.body if held is not None else None

    def setting(self, code: str | None) -> Setting | None:
        """A setting by its code."""
        held = self.shop.settings.get(code or "")
        return held.body if held is not None else None

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

    def settings_behind(self, gauge: Gauge) -> list[Setting]:
        """The setting of a gauge, that of its master, and so on."""
        return [setting for setting, _ in self._settings_behind(gauge.setting, gauge.instrument)]

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


def repeatability_of(instrument: Instrument) -> float:
    """What one reading adds of its own: never less than the division itself shows [SI]."""
    return max(instrument.repeatability, instrument.resolution / _RESOLUTION)
