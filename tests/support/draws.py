"""A build's readings drawn a million times from its raw record, by code of its own.

Nothing here calls the project's metrology: instruments, settings, blades and readings are taken from the
entries as they were written, every error is drawn, and sizes follow from what was typed.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Mapping, Sequence
from itertools import product
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.model.dimension import Dimension
from tests.support.story import Story

Draws = NDArray[np.float64]
Body = Mapping[str, Any]


class RecordDraws:
    """Draws of everything that the readings of one story rest on."""

    def __init__(self, story: Story, draws: int = 1_000_000) -> None:
        self.story, self.draws = story, draws
        self._held: dict[str, Draws] = {}
        self.bodies = {entry.id: entry.body for entry in story.new}
        self._coded = {(e.kind, e.body.get("code")): e.body for e in story.new if "code" in e.body}
        self._calibrations = {e.body["instrument"]: e.body for e in story.new if e.kind == "calibration"}

    def normal(self, key: str, spread: float) -> Draws:
        """One unknown, the same whenever it is named."""
        if key not in self._held:
            stream = np.random.Generator(np.random.Philox(zlib.crc32(key.encode())))
            self._held[key] = stream.standard_normal(self.draws)
        return np.asarray(spread * self._held[key])

    def even(self, key: str) -> Draws:
        """Evenly spread between zero and one, the same whenever it is named."""
        if key not in self._held:
            stream = np.random.Generator(np.random.Philox(zlib.crc32(key.encode())))
            self._held[key] = stream.random(self.draws)
        return self._held[key]

    def size(self, entry: str) -> Draws:
        """The size at 20 degrees Celsius behind one value read."""
        body = self.bodies[entry]
        observation = body["observation"]
        sitting = self._coded["sitting", body["sitting"]]
        instrument = self._coded["instrument", observation["instrument"]]
        setting = observation.get("setting") or sitting.get("settings", {}).get(instrument["code"])
        own = max(instrument["repeatability"], instrument["resolution"] / 12**0.5)
        indicated: Draws = float(observation["value"]["si"]) - self.normal(entry, own)
        indicated = indicated - self._gauge(instrument, setting)
        dimension = self.story.sheet.dimensions[body["dimension"]]
        if dimension.sense.value in ("diametral", "radial", "axial", "linear"):
            indicated = indicated * self._growth(body, sitting, instrument, dimension)
        return indicated

    def _gauge(self, instrument: Body, setting: str | None) -> Draws:
        calibration = self._calibrations.get(instrument["code"])
        spread = calibration["standard_uncertainty"] if calibration else instrument["calibration_uncertainty"]
        error = self.normal(f"screw {instrument['code']}", spread)
        error = error - (float(calibration["correction"]) if calibration else 0.0)
        if setting is None:
            return error
        held = self._coded["setting", setting]
        zero = float(held["zero"]["si"]) if held.get("zero") else 0.0
        error = error + self._passed_on(held, instrument)
        return error + zero

    def _passed_on(self, setting: Body, instrument: Body) -> Draws:
        """The setting's own error, the transfer, and its master's errors."""
        error = self.normal(f"setting {setting['code']}", setting["standard_uncertainty"])
        if instrument["transfer_uncertainty"]:
            error = error + self.normal(f"transfer {setting['code']}", instrument["transfer_uncertainty"])
        if setting.get("master"):
            master = self._coded["instrument", setting["master"]]
            calibration = self._calibrations.get(master["code"])
            spread = calibration["standard_uncertainty"] if calibration else master["calibration_uncertainty"]
            error = error + self.normal(f"screw {master['code']}", spread)
            if setting.get("master_setting"):
                error = error + self._passed_on(self._coded["setting", setting["master_setting"]], master)
        return error

    def _growth(self, body: Body, sitting: Body, instrument: Body, dimension: Dimension) -> Draws:
        part = dimension.part or self.part_through(dimension)
        material = self.story.sheet.materials[self.story.sheet.parts[part].material]
        common = self.normal(f"warmth {sitting['code']}", sitting["temperature_uncertainty"])
        apart = self.normal(
            f"part from gauge {sitting['code']} {part}", sitting["part_gauge_difference_uncertainty"]
        )
        of_part = float(sitting["temperature"]) - 293.15 + common
        of_gauge = of_part - apart
        alpha = material.expansion + self.normal(f"alpha {material.id}", material.expansion_uncertainty)
        of_scale = float(instrument["expansion"]) + self.normal(f"alpha of {instrument['code']}", 1e-6)
        return (1.0 + of_scale * of_gauge) / (1.0 + alpha * of_part)

    def part_through(self, dimension: Dimension) -> str:
        """The first part that a fitted dimension is taken through."""
        name = dimension.through[0]
        part = name if name in self.story.sheet.parts else self.story.sheet.dimensions[name].part
        assert part is not None
        return part

    def edge(self, entry: str, *, drag: bool) -> Draws:
        """Thickness of what was tried, with the hand's drag where it counts."""
        body = self.bodies[entry]
        names = body["observation"]["blades"]
        thickness = np.zeros(self.draws)
        for name in names:
            code, marking = name.split(":")
            blades = self._coded["blade set", code]["blades"]
            blade = next(each for each in blades if each["marking"] == marking)
            thickness = thickness + blade["thickness"]
            thickness = thickness + self.normal(f"blade {name}", blade["standard_uncertainty"])
        for interface in range(len(names) - 1):
            thickness = thickness + 2e-6 + self.normal(f"film {entry} {interface}", 2e-6)
        if drag:
            person = self._coded["person", body.get("measured_by") or self._sitting(body)["measured_by"]]
            thickness = thickness + person["drag"]
            thickness = thickness + self.normal(f"hand {person['code']}", person["drag_uncertainty"])
        return thickness

    def _sitting(self, body: Body) -> Body:
        return self._coded["sitting", body["sitting"]]

    def room(self, entries: Iterable[str]) -> tuple[Draws, Draws]:
        """The largest edge that the gap reaches and the least that it does not."""
        low, high = np.full(self.draws, -np.inf), np.full(self.draws, np.inf)
        for entry in entries:
            answer = self.bodies[entry]["observation"]["answer"]
            if answer != "does not go":
                low = np.maximum(low, self.edge(entry, drag=answer == "goes freely"))
            if answer in ("does not go", "drags"):
                high = np.minimum(high, self.edge(entry, drag=answer == "drags"))
        return low, high

    def stated(self, entry: str) -> Draws:
        """A stated size, even over its tolerance."""
        body = self.bodies[entry]
        return float(body["size"]["si"]) + float(body["tolerance"]["si"]) * (2.0 * self.even(entry) - 1.0)


def by_place(story: Story, dimension: str, readings: Iterable[str]) -> list[list[str]]:
    """Readings of one dimension among these, place by place."""
    places: dict[str, list[str]] = {}
    records = story.bench().build.readings
    for entry in readings:
        if records[entry].dimension == dimension:
            places.setdefault(records[entry].place, []).append(entry)
    return list(places.values())


def worst(
    places: Sequence[Sequence[tuple[float, Draws]]], side: str, limit: float
) -> tuple[float, float, float]:
    """Least share of draws in which a bound holds, over every combination; its mean and spread."""
    found = []
    for combination in product(*places):
        total = sum(factor * size for factor, size in combination)
        holds = total >= limit if side == "lower" else total <= limit
        found.append((float(np.mean(holds)), float(np.mean(total)), float(np.std(total))))
    return min(found)
