"""What is asked of the oil system by the words of a command: an operating point, and what is otherwise."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Final

from fitwright.assess.oil.amounts import amounts_of
from fitwright.assess.oil.chosen import COLDEST, FASTEST, HOTTEST, is_within
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.points import OilPoint, named_points
from fitwright.assess.oil.sliders import Moves, Slider
from fitwright.assess.oil.what_if import WhatIf
from fitwright.cli.errors import UsageError
from fitwright.cli.oil_otherwise import amount_words
from fitwright.drawing.oil_figures import OilReader
from fitwright.units import QuantityError, parse_quantity
from fitwright.units.families import Family, shop_unit


@dataclass(frozen=True, slots=True)
class OilFlags:
    """What was typed to change something; what was not is empty."""

    oil: str = ""
    changes: Sequence[str] = ()
    sizes: Sequence[str] = ()
    shim: str = ""
    seat: str = ""
    pump_speed: str = ""
    fuel: str = ""
    temperature_change: str = ""
    misalignment: str = ""


_FLAGS: Final = {
    "shim": ("--shim", Moves.SHIM),
    "seat": ("--seat", Moves.SEAT),
    "pump_speed": ("--pump-speed", Moves.PUMP_SPEED),
    "fuel": ("--fuel", Moves.FUEL),
    "temperature_change": ("--temperature-change", Moves.TEMPERATURE),
    "misalignment": ("--misalignment", Moves.MISALIGNMENT),
}
"""Flags that move what one slider moves."""


@dataclass(frozen=True, slots=True)
class OilAsking:
    """Reads what is asked of one desk by one reader; whatever cannot be asked is a `UsageError`."""

    desk: OilDesk
    family: Family

    def what_if(self, flags: OilFlags) -> WhatIf:
        """The what-if that flags ask for."""
        moved = {name: self._moved(name, text) for name in _FLAGS if (text := getattr(flags, name))}
        return WhatIf(
            oil=self._oil(flags.oil),
            fuel_share=moved.get("fuel", 0.0),
            temperature_change=moved.get("temperature_change", 0.0),
            clearance_changes=dict(self._changes(flags.changes)),
            sizes=dict(self._sizes(flags.sizes)),
            shim=moved.get("shim", 0.0),
            seat_leak_lift=moved.get("seat", 0.0),
            pump_speed_factor=moved.get("pump_speed", 1.0),
            misalignment=moved.get("misalignment", 0.0),
        )

    def point(self, speed: str, temperature: str) -> OilPoint | None:
        """The operating point asked for: what is not said is that of hot idle; None where nothing is said."""
        circuit = self.desk.circuit
        if circuit is None or not (speed or temperature):
            return None
        point = named_points(circuit)[0]
        turning, warm = point.angular_speed, point.oil_temperature
        if speed:
            turning = _amount("--speed", speed, "angular_speed", "rpm")
        if temperature:
            unit = shop_unit("temperature", self.family)
            warm = _amount("--temperature", temperature, "temperature", unit)
        found = OilPoint("the point asked for", turning, warm)
        if not is_within(circuit, found):
            reader = OilReader(self.family)
            fastest = reader.speed(FASTEST * circuit.top_speed.si)
            cold, hot = reader.temperature(COLDEST), reader.temperature(HOTTEST)
            raise UsageError(
                f"Ask at up to {fastest} (--speed) and with oil from {cold} to {hot} (--temperature)."
            )
        return found

    def _oil(self, name: str) -> str:
        oils = self.desk.case.sheet.oils
        if name and name not in oils:
            raise UsageError(f'No oil "{name}" in the sheet; {_there_is(oils)}.')
        return name

    def _changes(self, texts: Iterable[str]) -> Iterator[tuple[str, float]]:
        """Groups of clearances with by how much each grows."""
        groups = {each.id: each for each in self.desk.sliders if each.moves is Moves.CLEARANCES}
        for text in texts:
            group, typed = _parted("--change", text, 'a group with its change, as "mains=+0.02 mm"')
            if group not in groups:
                raise UsageError(f'No group "{group}" of clearances; {_there_is(groups)}.')
            value = _amount(f"--change {group}", typed, "length")
            yield group, self._between(f"--change {group}", value, groups[group])

    def _sizes(self, texts: Iterable[str]) -> Iterator[tuple[str, float]]:
        """Amounts of the circuit with their other value; a star stands for any characters."""
        posed = self.desk.case.posed
        amounts = amounts_of(posed) if posed is not None else {}
        for text in texts:
            pattern, typed = _parted(
                "--size", text, 'a size with its value, as "paths.jet.*.diameter=1.0 mm"'
            )
            found = [each for name, each in amounts.items() if fnmatchcase(name, pattern)]
            if not found:
                raise UsageError(self._no_size(pattern, list(amounts)))
            for each in found:
                value = _amount(f"--size {each.id}", typed, each.dimension)
                if value <= 0.0:
                    raise UsageError(f"--size {each.id}: {typed} is too little; say more than nothing.")
                yield each.id, value

    def _no_size(self, name: str, amounts: Sequence[str]) -> str:
        posed = self.desk.case.posed
        groups = posed.groups.items() if posed is not None else ()
        mine = [group for group, names in groups if name in names]
        if mine:
            return f'{name} is measured; change its group instead: --change "{mine[0]}=+0.01 mm".'
        near = difflib.get_close_matches(name, amounts, n=3, cutoff=0.5)
        hint = (
            f"did you mean {' or '.join(near)}?"
            if near
            else "`fitwright sheet show` lists what the sheet has."
        )
        return f'No amount "{name}" in the oil circuit; {hint}'

    def _moved(self, name: str, typed: str) -> float:
        """A value that the slider of its kind can take."""
        flag, moves = _FLAGS[name]
        slider = next((each for each in self.desk.sliders if each.moves is moves), None)
        if slider is None:
            raise UsageError(f"{flag}: the circuit has nothing to move by it.")
        return self._between(flag, _amount(flag, typed, slider.dimension or "ratio"), slider)

    def _between(self, flag: str, value: float, slider: Slider) -> float:
        if slider.low - 1e-12 <= value <= slider.high + 1e-12:
            return value
        low, high = (self._end(slider, each) for each in (slider.low, slider.high))
        raise UsageError(f"{flag} is beyond what can be asked; say {low} to {high}.")

    def _end(self, slider: Slider, value: float) -> str:
        if slider.moves is Moves.FUEL:
            return f"{100.0 * value:g} %"
        return amount_words(value, slider.dimension or "ratio", self.family)


def _amount(flag: str, text: str, dimension: str, unit: str | None = None) -> float:
    try:
        return parse_quantity(text, default_unit=unit, dimension=dimension).si
    except QuantityError as error:
        raise UsageError(f"{flag}: {error}.") from error


def _parted(flag: str, text: str, form: str) -> tuple[str, str]:
    name, equals, value = text.partition("=")
    if not equals or not name.strip() or not value.strip():
        raise UsageError(f"{flag}: {text} is not {form}.")
    return name.strip(), value.strip().strip('"')


def _there_is(names: Iterable[str]) -> str:
    known = "; ".join(names)
    return f"there are these: {known}" if known else "there is none"
