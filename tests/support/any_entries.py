"""Entries of every kind that the record takes, sensible or not: what a shop may come to hold in years."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from fitwright.assess.evidence import occupants
from fitwright.assess.results import State
from fitwright.model.dimension import Dimension
from fitwright.records.entry import NewEntry
from fitwright.records.errors import RecordError
from fitwright.records.registry import KINDS, SHOP_KINDS, checked
from fitwright.records.rules import check_references
from tests.support.record import Before, typed
from tests.support.story import Story

ODD = (0.0, -0.0, -1e-6, 1e-300, 5e-324, 1e6, 1e11, -1e11, 1.0)
"""Numbers that the record takes here and there, and that nobody would think of."""
NAMED = ("M", "N", "B", "W", "S-M", "S-BM", "S-N", "F", "T-1", "T-2", "builder", "shell-2", "gone")
OFTEN = {"reading": 12, "withdrawal": 4, "fitting": 4, "readings moved": 4, "rework checked": 3}


class AnyEntries:
    """Adds entries to a story; one in so many numbers is odd."""

    def __init__(self, story: Story, seed: int, odd: float) -> None:
        self.story, self.draw, self.odd = story, random.Random(seed), odd
        self.dimensions = list(story.sheet.dimensions.values())
        self.parts = list(story.sheet.parts)

    def add(self) -> None:
        """The next entry, unless the record refuses it."""
        kind = self.draw.choices(list(KINDS), [OFTEN.get(each, 1) for each in KINDS])[0]
        body = {"reason": "r"} | getattr(self, f"_{kind.replace(' ', '_').replace('-', '_')}")()
        build = None if kind in SHOP_KINDS and self.draw.random() < 0.8 else self.story.build
        same = [entry.id for entry in self.story.new if entry.kind == kind]
        if same and self.draw.random() < 0.15:
            body["supersedes"] = self.draw.choice(same)
        named = next((e for e in self.story.new if e.id in (body.get("entry"), body.get("supersedes"))), None)
        build = named.build if named is not None else build
        new = NewEntry(f"{self.draw.getrandbits(128):032x}", build, kind, body)
        try:
            check_references(
                new, checked(new)[0], Before(self.story.entries(), sheets={self.story.sheet.digest})
            )
        except RecordError:
            return
        self.story.new.append(new)

    # Pieces.

    def _number(self, usual: float) -> float:
        return self.draw.choice(ODD) if self.draw.random() < self.odd else usual * self.draw.uniform(0.5, 1.5)

    def _perhaps(self, value: object) -> object:
        return value if self.draw.random() < 0.5 else None

    def _typed(self, si: float) -> dict[str, Any]:
        unit = self.draw.choice(["bar", "degC", "thou"]) if self.draw.random() < self.odd else "mm"
        return typed(si, unit=unit)

    def _code(self, kind: str) -> str:
        known: list[str] = [entry.body["code"] for entry in self.story.new if entry.kind == kind]
        return self.draw.choice([*known, *known, *known, *known, self.draw.choice(NAMED)])

    def _part_code(self) -> str:
        return self.draw.choice([*self.parts, *self.parts, "shell-2", "spare"])

    def _any_id(self, kind: str | None = None) -> str:
        ids = [entry.id for entry in self.story.new if kind in (None, entry.kind)]
        return self.draw.choice(ids or [self.story.new[0].id])

    def _members(self, dimension: Dimension) -> dict[str, str]:
        found = occupants(self.story.sheet, self.story.bench().build, dimension, State.CURRENT)
        part = self._part_code()
        odd: tuple[dict[str, str], ...] = (
            {},
            {"": part},
            {part: part},
            {part: part, self._part_code(): part},
        )
        return found if found and self.draw.random() < 0.75 else self.draw.choice(odd)

    def _somewhere(self) -> dict[str, Any]:
        dimension = self.draw.choice(self.dimensions)
        members = self._members(dimension)
        places = [place.id for place in dimension.places]
        return {
            "dimension": None if "" in members else dimension.id,
            "feature": dimension.feature,
            "place": self.draw.choice([*places, *places, *places, *places, "nowhere"]),
            "members": members,
        }

    def _observed(self, dimension: Dimension | None) -> dict[str, Any]:
        draw = self.draw
        blades = [
            f"{entry.body['code']}:{blade['marking']}"
            for entry in self.story.new
            if entry.kind == "blade set"
            for blade in entry.body["blades"]
        ]
        if draw.random() < (0.8 if dimension is None or "feeler blades" in dimension.instruments else 0.1):
            names = draw.sample([*dict.fromkeys(blades), "Q:1"], draw.choice([1, 1, 2, 3]))
            answers = ["goes", "goes freely", "drags", "does not go"]
            return {"type": "blade", "blades": names, "answer": draw.choice(answers)}
        nominal = dimension.nominal.si if dimension is not None and dimension.nominal is not None else 5e-5
        size = nominal + draw.choice([-2, -1, 0, 0, 1, 40]) * 1e-6
        return {
            "type": "value",
            "value": self._typed(draw.choice(ODD) if draw.random() < self.odd else size),
            "instrument": self._perhaps(self._code("instrument")),
            "setting": self._perhaps(self._code("setting")),
        }

    # Kinds, in the order of `records.kinds`.

    def _person(self) -> dict[str, Any]:
        drag = {"drag": self._number(3e-6), "drag_uncertainty": self._number(2e-6)}
        return {"code": self._code("person"), "name": "P"} | drag

    def _instrument(self) -> dict[str, Any]:
        numbers = ("resolution", "repeatability", "calibration_uncertainty", "transfer_uncertainty")
        return {
            "code": self._code("instrument"),
            "title": "I",
            "type": self.draw.choice(["outside micrometer", "bore gauge", "unheard of"]),
            "unit": self.draw.choice(["mm", "in", "bar"]),
            "comparison": self.draw.random() < 0.3,
            "repeatability_degrees_of_freedom": self._perhaps(self._number(9.0)),
        } | {name: self._number(1e-6) for name in numbers}

    def _calibration(self) -> dict[str, Any]:
        return {
            "code": self.draw.choice(["C-M", "C-2"]),
            "instrument": self._code("instrument"),
            "standard_uncertainty": self._number(1e-6),
            "correction": self._number(1e-6),
        }

    def _setting(self) -> dict[str, Any]:
        return {
            "code": self._code("setting"),
            "instrument": self._code("instrument"),
            "standard_uncertainty": self._number(1e-6),
            "master": self._perhaps(self._code("instrument")),
            "master_setting": self._perhaps(self._code("setting")),
            "zero": self._perhaps(self._typed(self._number(1e-6))),
        }

    def _check_back(self) -> dict[str, Any]:
        return {"setting": self._code("setting"), "drift": self._typed(self._number(1e-6))}

    def _blade_set(self) -> dict[str, Any]:
        blades = [
            {
                "marking": f"0.0{n}",
                "thickness": self._number(n * 1e-5),
                "standard_uncertainty": self._number(1e-6),
            }
            for n in range(2, 2 + self.draw.randint(0, 7))
        ]
        return {"code": self.draw.choice(["F", "F2"]), "title": "t", "blades": blades}

    def _gauge_study(self) -> dict[str, Any]:
        readings = [
            {"person": person, "part": part, "indication": typed(self._number(1e-5))}
            for person in ("builder", "apprentice")[: self.draw.randint(0, 2)]
            for part in ("1", "2")
        ]
        return {"code": "GS-1", "instrument": self.draw.choice(NAMED), "readings": readings}

    def _part(self) -> dict[str, Any]:
        position = self._perhaps(self._part_code())
        return {
            "code": self._part_code(),
            "title": "t",
            "position": position,
            "used": self.draw.random() < 0.3,
        }

    def _fitting(self) -> dict[str, Any]:
        return {"part": self._part_code(), "position": self._part_code()}

    _taking_out = _fitting

    def _state(self) -> dict[str, Any]:
        dimensions = [self.draw.choice(self.dimensions).id for _ in range(self.draw.randint(0, 2))]
        part = self._part_code()
        return {"code": "R", "change": "rework", "part": part, "dimensions": dimensions, "words": "w"}

    def _sitting(self) -> dict[str, Any]:
        return {
            "code": self.draw.choice(["T-1", "T-2"]),
            "measured_by": self._code("person"),
            "temperature": self._number(293.15),
            "temperature_uncertainty": self._number(0.5),
            "part_temperatures": {self._part_code(): self._number(293.15)},
            "settings": {self._code("instrument"): self._code("setting")},
            "attitude": self.draw.choice([None, "sump up", "9" * 400, "nan"]),
            "crank": self.draw.choice([None, "lifted", "middle"]),
        }

    def _reading(self) -> dict[str, Any]:
        where = self._somewhere()
        return where | {
            "observation": self._observed(self.story.sheet.dimensions.get(where["dimension"] or "")),
            "sitting": self.draw.choice(["T-1", "T-1", None, "T-2"]),
            "part_temperature": self._perhaps(self._number(293.15)),
            "during_rework": self.draw.random() < 0.05,
        }

    def _question_answered(self) -> dict[str, Any]:
        return {"question": "q", "text": "t", "answer": "keep", "entry": self._any_id()}

    def _build_started(self) -> dict[str, Any]:
        return {"code": self.story.build, "title": "t", "sheet": self.story.sheet.digest}

    def _revision_taken_over(self) -> dict[str, Any]:
        return {"sheet": self.story.sheet.digest, "previous_sheet": self.story.sheet.digest}

    def _readings_moved(self) -> dict[str, Any]:
        moves = [
            self._somewhere() | {"entry": self._any_id("reading")} for _ in range(self.draw.randint(0, 3))
        ]
        return {"moves": [move for move in moves if move["dimension"] is not None]}

    def _withdrawal(self) -> dict[str, Any]:
        return {"entry": self._any_id()}

    def _choice(self) -> dict[str, Any]:
        return {
            "choice": self.draw.choice(["use again", "use instead", "keep both"]),
            "entries": [self._any_id("reading") for _ in range(self.draw.randint(0, 2))],
            "instead_of": [self._any_id("reading") for _ in range(self.draw.randint(0, 2))],
        }

    def _stated_size(self) -> dict[str, Any]:
        sizes = {"size": self._typed(self._number(0.05)), "tolerance": self._perhaps(self._typed(-1e-5))}
        return self._somewhere() | sizes | {"stated_by": "maker"}

    def _eye_check(self) -> dict[str, Any]:
        return {"check": "c", "answer": True, "photo": self._perhaps("../../photo")}

    def _limit_adopted(self) -> dict[str, Any]:
        return {
            "subject": self.draw.choice([*self.story.sheet.fits, "nothing"]),
            "source": self.draw.choice([*self.story.sheet.sources, "nobody"]),
            "lower": self._perhaps(self._typed(self._number(4e-5))),
            "upper": self._perhaps(self._typed(self._number(6e-5))),
            "adopted_by": "builder",
        }

    def _note(self) -> dict[str, Any]:
        return {"text": "n"}

    def _photo(self) -> dict[str, Any]:
        return {"digest": "../../photo", "media_type": "image/png"}

    def _not_measured(self) -> dict[str, Any]:
        return {"subject": self.draw.choice(self.dimensions).id, "because": "b"}

    def _not_in_this_job(self) -> dict[str, Any]:
        name = self.draw.choice(self.dimensions).id
        return {"subject": self.draw.choice([name, name.partition(".")[0], "", ".", "nothing"])}

    def _pressure_reading(self) -> dict[str, Any]:
        return {
            "angular_speed": typed(self._number(90.0), unit="rpm"),
            "oil_temperature": typed(self._number(360.0), unit="degC"),
            "gauge_reading": self._typed(self._number(3e5)) | {"unit": "bar"},
            "zero": self._perhaps(typed(self._number(1e4), unit="bar")),
            "instrument": self._perhaps(self._code("instrument")),
            "oil": self.draw.choice([None, *self.story.sheet.oils, "run in", "9" * 400]),
            "step": self._perhaps("warm"),
            "seconds_to_pressure": self._perhaps(typed(self._number(6.0), unit="s")),
        }

    def _oil_chosen(self) -> dict[str, Any]:
        sheet = {
            "title": "o",
            "kinematic_viscosity_40": typed(self._number(1e-4), unit="mm2/s"),
            "kinematic_viscosity_100": typed(self._number(1e-5), unit="mm2/s"),
            "density_15": self._perhaps(typed(self._number(870.0), unit="kg/m3")),
        }
        named = {"oil": self.draw.choice([*self.story.sheet.oils, "gone"])}
        return self.draw.choice([named, {"data_sheet": sheet}, {"grade": "10W-40"}])

    # Work of assembly.

    def _group(self) -> str:
        return self.draw.choice([*self.story.sheet.tightening_groups, "no group"])

    def _fasteners(self, group: str) -> list[str]:
        found = self.story.sheet.tightening_groups.get(group)
        ids = [each.id for each in found.fasteners] if found is not None else ["1"]
        return self.draw.sample([*ids, "elsewhere"], self.draw.randint(1, len(ids)))

    def _step(self) -> str:
        return self.draw.choice([*self.story.sheet.steps, "no step"])

    def _work_subject(self) -> str:
        group = self._group()
        fastener = f"{group}/{self._fasteners(group)[0]}"
        return self.draw.choice([*self.story.sheet.fits, fastener, fastener, "nothing"])

    def _moment(self) -> str | None:
        return self.draw.choice([None, "2031-05-04T09:30:00Z", "2031-05-05 10:00", "after lunch", "9" * 400])

    def _tightening(self) -> dict[str, Any]:
        group = self._group()
        return {
            "group": group,
            "fasteners": self._fasteners(group),
            "number": self.draw.randint(1, 4),
            "members": {} if self.draw.random() < 0.5 else {self._fasteners(group)[0]: self._part_code()},
            "torque": typed(self._number(40.0), unit="N m"),
            "read": self.draw.choice(["set", "peak"]),
            "angle": self._perhaps(typed(self._number(1.5), unit="deg")),
            "stretch": self._perhaps(self._typed(self._number(1e-4))),
            "wrench": self._perhaps(self._code("instrument")),
            "lubricant": self.draw.choice([None, "engine oil", "assembly_paste", "goo"]),
            "performed_by": self._perhaps("builder"),
        }

    def _tightening_check(self) -> dict[str, Any]:
        group = self._group()
        check = self.draw.choice(["marked", "checked", "stands as it is"])
        return {"group": group, "fasteners": self._fasteners(group), "check": check, "checked_by": "builder"}

    def _loosening(self) -> dict[str, Any]:
        group = self._group()
        return {
            "group": group,
            "fasteners": self._fasteners(group),
            "because": "b",
            "breakaway_torque": self._perhaps(typed(self._number(40.0), unit="N m")),
            "length_after": self._perhaps(self._typed(self._number(0.05))),
        }

    def _heat_cycle(self) -> dict[str, Any]:
        return {"words": "w", "taken_at": self._moment()}

    def _consumable_used(self) -> dict[str, Any]:
        return {
            "consumable": self.draw.choice([*self.story.sheet.consumables, "goo"]),
            "step": self._perhaps(self._step()),
            "batch": self._perhaps("B1"),
            "expires": self.draw.choice([None, "2031-05", "2019-01-01", "soon"]),
            "mixed_at": self._moment(),
            "applied_at": self._moment(),
        }

    def _step_done(self) -> dict[str, Any]:
        return {"step": self._step(), "done_by": self._perhaps("builder")}

    def _witness_invited(self) -> dict[str, Any]:
        answer = self.draw.choice(["invited", "was present", "did not come"])
        return {"step": self._step(), "invited": "owner", "answer": answer}

    def _step_released(self) -> dict[str, Any]:
        return {"step": self._step(), "released_by": "builder", "later": self.draw.random() < 0.3}

    def _concession(self) -> dict[str, Any]:
        return {
            "code": self.draw.choice(["C-1", "C-2"]),
            "subject": self._work_subject(),
            "parts": {} if self.draw.random() < 0.5 else {self._part_code(): self._part_code()},
            "lowest": self._perhaps(self._typed(self._number(3e-5))),
            "highest": self._perhaps(self._typed(self._number(7e-5))),
            "granted_by": "builder",
            "because": "b",
            "until": self.draw.choice([None, "2031-05-04", "the first strip-down"]),
        }

    _deviation_permit = _concession

    def _rework_order(self) -> dict[str, Any]:
        dimensions = [self.draw.choice(self.dimensions).id for _ in range(self.draw.randint(0, 2))]
        return {
            "code": self.draw.choice(["R-1", "R-2"]),
            "part": self._part_code(),
            "dimensions": dimensions,
            "words": "w",
            "target": self._perhaps(self._typed(self._number(0.05))),
            "feeds": [self.draw.choice([*self.story.sheet.fits, "nothing"])],
        }

    def _rework_checked(self) -> dict[str, Any]:
        item = self.draw.choice([*self.story.sheet.fits, "nothing"])
        answer = self.draw.choice(["holds", "put right", "not touched"])
        return {"order": self._code("rework order"), "item": item, "answer": answer}

    def _signature(self) -> dict[str, Any]:
        meaning = self.draw.choice(["performed", "checked", "released"])
        subject = self.draw.choice(["dossier", self._step(), self._group(), "C-1"])
        return {"subject": subject, "meaning": meaning, "signed_by": "builder", "seq": 1, "hash": "0" * 64}

    def _PIN_set(self) -> dict[str, Any]:  # noqa: N802  (named by its kind)
        secret = {"salt": "00" * 16, "hardened": "0" * 64, "cost": 2**15}
        return {"person": self.draw.choice(["builder", "gone"])} | secret

    def _dossier_written(self) -> dict[str, Any]:
        head = {"seq": 1, "hash": "0" * 64, "data_digest": "0" * 64}
        return {"revision": self.draw.randint(1, 3), "depth": "owner", "paper": "A4"} | head

    def _shop_setting(self) -> dict[str, Any]:
        name = self.draw.choice(["decision rule critical", "decision rule normal"])
        return {"name": name, "value": self.draw.choice(["0.95", "0.9", "0.99999"])}


def grown(make: Callable[[], Story], seed: int, *, odd: float, entries: int) -> Story:
    """A story with so many more entries of any kind."""
    story = make()
    coming = AnyEntries(story, seed, odd)
    for _ in range(entries):
        coming.add()
    return story
