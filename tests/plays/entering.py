"""A person at the forms of the bench: what an example's record says is entered as its forms ask for it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from playwright.sync_api import Locator

from fitwright.examples import record_entries
from fitwright.units import parse_quantity
from tests.plays.bench_day import Line
from tests.plays.person import Person

Body = Mapping[str, Any]
UNFOLD = "(each) => { for (let up = each; up; up = up.parentElement) if (up.open === false) up.open = true }"
"""Opens everything folded that an element lies in."""
FIELDS = """
(form) => Object.fromEntries([...form.querySelectorAll("[name]")].map((each) => {
  const known = each.type === "checkbox" ? each.checked : each.value;
  return [each.name, [each.type, known, each.checkVisibility()]];
}))
"""
"""What each field of a form is, what stands in it, and whether it is to be seen."""
UNFOLD = "(each) => { for (let up = each; up; up = up.parentElement) if (up.open === false) up.open = true }"


def amount(si: float | None, unit: str) -> str:
    """A value of the record as a person would write it in this unit; nothing for none."""
    if si is None:
        return ""
    number = Decimal(f"{si / parse_quantity(f'1 {unit}').si:.9g}")
    return f"{number.normalize():f} {unit}"


def start_from_example(person: Person, example: str) -> None:
    """Start a build of which nothing is measured, with what an example's record says of it."""
    body = next(each["body"] for each in record_entries(example) if each["kind"] == "build started")
    person.opens("/builds/new/example")
    page = person.page
    page.locator(f"input[name=example][value={example}]").check()
    for name in ("title", "job_number", "engine_number", "duty", "code", "owner_words"):
        page.locator(f"[name={name}]").fill(body[name])
    page.locator("button[value=start]").click()
    page.wait_for_url(f"**/builds/{body['code']}*")


@dataclass
class Entering:
    """One person who enters what is no reading.

    `who` is picked in the first form and remembered; `unit_of` says in which unit each gauge reads.
    """

    person: Person
    who: str
    unit_of: Mapping[str, str]
    entered: int = 0

    def enters(self, line: Line) -> None:
        """Enter what an entry says by the form for its kind."""
        self.forms[line["kind"]](line["body"])
        self.entered += 1

    @property
    def forms(self) -> Mapping[str, Callable[[Body], None]]:
        """The form for each kind of entry."""
        return {
            "shop setting": self.shop_name,
            "person": self.somebody,
            "instrument": self.instrument,
            "calibration": self.calibration,
            "blade set": self.blade_set,
            "setting": self.setting,
            "check-back": self.check_back,
            "state": self.rework,
            "taking out": self.taking_out,
            "fitting": self.fitting,
            "part": self.part,
            "eye check": self.eye_check,
            "not measured": self.not_measured,
            "not in this job": self.not_in_this_job,
            "note": self.note,
        }

    # The forms of the page Shop.

    def shop_name(self, body: Body) -> None:
        """The name of the shop."""
        self._shop("/shop/rules", "shown", {"name": body["value"]})

    def somebody(self, body: Body) -> None:
        """Somebody who works here, and how blades feel in that hand."""
        said = {"name": body["name"], "role": body["role"]}
        self._shop("/shop/people", "person", said | _amounts(body, "mm", "drag", "drag_uncertainty"))

    def instrument(self, body: Body) -> None:
        """A gauge, from the figures offered for its kind to its own."""
        unit = body["unit"]
        names = ("resolution", "repeatability", "range_low", "range_high", "zero_limit")
        said = {"code": body["code"], "title": body["title"], "unit": unit, "note": body.get("note", "")}
        said |= _amounts(body, unit, *names)
        said["uncertainty"] = amount(body.get("calibration_uncertainty"), unit)
        said["transfer"] = amount(body.get("transfer_uncertainty"), unit)
        ticks = {name: bool(body.get(name)) for name in ("comparison", "typical")}
        self._shop(f"/shop/instruments?kind={body['type']}&units=mm", "instrument", said | ticks)

    def calibration(self, body: Body) -> None:
        """A calibration with its certificate; or that there never was one."""
        unit = self.unit_of[body["instrument"]]
        said = {"date": body.get("date", ""), "certificate": body.get("certificate", "")}
        said["uncertainty"] = amount(body["standard_uncertainty"], unit)
        never = {"never": bool(body.get("never"))}
        self._shop(f"/shop/instruments/{body['instrument']}", "calibration", said | never)

    def blade_set(self, body: Body) -> None:
        """A set, blade by blade: marked so, measured so."""
        blades = body["blades"]
        marked = {each["standard_uncertainty"] for each in blades if not each["measured"]}
        measured = {each["standard_uncertainty"] for each in blades if each["measured"]}
        said = {"code": body["code"], "title": body["title"], "unit": "mm"}
        said["blades"] = " ".join(_blade(each) for each in blades)
        said |= {"uncertainty": amount(next(iter(marked)), "mm")} if marked else {}
        said |= {"measured_uncertainty": amount(next(iter(measured)), "mm")} if measured else {}
        self._shop("/shop/blades", "blades", said | {"plugs": bool(body.get("plugs"))})

    def setting(self, body: Body) -> None:
        """What a gauge was set against."""
        gauge = body["instrument"]
        said = {"instrument": gauge, "code": body["code"]}
        said |= {name: body.get(name, "") for name in ("master", "master_setting")}
        said["against"] = "" if body.get("master") else body.get("against", "")
        said["uncertainty"] = amount(body.get("standard_uncertainty"), self.unit_of[gauge])
        said |= {name: _typed(body[name]) for name in ("size", "zero") if body.get(name)}
        self._shop(f"/shop/settings?gauge={gauge}", "setting", said)

    def check_back(self, body: Body) -> None:
        """The setting looked at again."""
        self._shop(f"/shop/settings/{body['setting']}", "check-back", {"drift": _typed(body["drift"])})

    def _shop(self, path: str, form: str, said: Mapping[str, str | bool]) -> None:
        self.person.opens(path)
        own = self.person.page.locator(f"#form-{form}")
        self._fill(own, said)
        own.locator("form button.take").click()
        self._told(own.locator(".told .said"))

    # The forms of the page Parts.

    def parts(self, bodies: Iterable[Body], station: str) -> list[str]:
        """The parts of a station with code and serial, all in one form; returns the codes entered."""
        form = self._part_form("parts", station=station)
        asked = form.locator("input[name^='code:']").evaluate_all("(all) => all.map((each) => each.name)")
        here = [body for body in bodies if f"code:{body['position']}" in asked]
        said = {f"code:{body['position']}": body["code"] for body in here}
        said |= {f"serial:{body['position']}": body.get("serial", "") for body in here}
        self._fill(form, said)
        self._send(form)
        return [body["code"] for body in here]

    def part(self, body: Body) -> None:
        """A part by itself."""
        said = {name: body.get(name, "") for name in ("position", "code", "title", "serial", "origin")}
        self._parts("part", said)

    def fitting(self, body: Body) -> None:
        """A part into a position."""
        self._parts("fit", {"position": body["position"], "part": body["part"]})

    def taking_out(self, body: Body) -> None:
        """What sits in a position, out."""
        self._parts("out", {"position": body["position"]})

    def swap(self, one: str, other: str) -> None:
        """Two parts in each other's place."""
        self._parts("swap", {"one": one, "other": other})

    def rework(self, body: Body) -> None:
        """What was done to a part, and which readings speak no longer."""
        form = self._part_form("rework", part=body["part"])
        self._fill(form, {"words": body["words"]})
        form.locator(f"input[name=change][value='{body['change']}']").check()
        for box in form.locator("input[name=dimension]").all():
            if box.is_checked() is not (box.get_attribute("value") in body["dimensions"]):
                self._tap(box)
        ticked = form.locator("input[name=dimension]:checked")
        assert {each.get_attribute("value") for each in ticked.all()} == set(body["dimensions"])
        self._send(form)

    def stated(self, bodies: Iterable[Body]) -> None:
        """What labels state: of one size for many parts, once."""
        alike: dict[tuple[str, str, str], list[str]] = {}
        for body in bodies:
            label = (_typed(body["size"]), _typed(body["tolerance"]), body["stated_by"])
            alike.setdefault(label, []).append(body["dimension"])
        for (size, tolerance, by), names in alike.items():
            left = list(names)
            while left:
                form = self._part_form("stated", dimension=left[0])
                self._fill(form, {"size": size, "tolerance": tolerance, "by": by})
                done = {left[0]}
                for name in left[1:]:
                    box = form.locator(f"input[name=also][value='{name}']")
                    if box.count():
                        self._tap(box)
                        done.add(name)
                self._send(form)
                left = [each for each in left if each not in done]

    def eye_check(self, body: Body) -> None:
        """A yes or no with words."""
        answer = "yes" if body["answer"] else "no"
        form = self._part_form("eye", check=body["check"])
        form.locator(f"input[name=answer][value={answer}]").check()
        self._fill(form, {"words": body.get("words", "")})
        self._send(form)

    def not_measured(self, body: Body) -> None:
        """Why something has no reading."""
        self._parts("not-measured", {"subject": body["subject"], "because": body["because"]})

    def not_in_this_job(self, body: Body) -> None:
        """What is left out of this job."""
        self._parts("not-in-job", {"subject": body["subject"], "reason": body["reason"]})

    def note(self, body: Body) -> None:
        """Words about something."""
        self._parts("note", {"text": body["text"], "subject": body.get("subject", "")})

    def undoes(self) -> None:
        """Take back what was just entered, by the touch that is offered for it."""
        self.person.taps_on("#entry .after form button")
        self.person.page.locator("#entry .said.kept", has_text="Take an entry back").wait_for()

    def _parts(self, do: str, said: Mapping[str, str]) -> None:
        form = self._part_form(do)
        self._fill(form, said)
        self._send(form)

    def _part_form(self, do: str, **asked: str) -> Locator:
        self.person.opens(f"/builds/{self.person.build}/parts", do=do, **asked)
        return self.person.page.locator("#entry form.record")

    def _send(self, form: Locator) -> None:
        who = form.locator("select[name=person]")
        if who.count() and not who.input_value():
            who.select_option(self.who)
        form.locator(".do button.take").click()
        self._told(self.person.page.locator("#entry .said"))

    def _told(self, said: Locator) -> None:
        """What came of a form: it was kept."""
        said.wait_for()
        assert "kept" in (said.get_attribute("class") or ""), said.inner_text()
        self.person.taps += 1

    # Fields of any form.

    def _fill(self, form: Locator, said: Mapping[str, str | bool]) -> None:
        """Fill in what is not there already, unfolding what lies in something folded."""
        fields = form.evaluate(FIELDS)
        for name, value in said.items():
            kind, known, is_seen = fields[name]
            if known == value:
                continue
            own = form.locator(f"[name='{name}']")
            if not is_seen:
                own.evaluate(UNFOLD)
                fields = form.evaluate(FIELDS)
                self.person.taps += 1
            if isinstance(value, bool):
                own.set_checked(value)
            elif kind == "select-one":
                own.select_option(value)
            else:
                own.fill(value)

    def _tap(self, box: Locator) -> None:
        """Tick a box, unfolded where it lies in something folded."""
        if not box.is_visible():
            box.evaluate(UNFOLD)
        box.click()
        self.person.taps += 1


def _amounts(body: Body, unit: str, *names: str) -> dict[str, str]:
    return {name: amount(body.get(name), unit) for name in names}


def _typed(value: Body) -> str:
    """An amount as it was typed, with its unit."""
    text, unit = value["typed"], value["unit"]
    return text if text.endswith(unit) else f"{text} {unit}"


def _blade(blade: Body) -> str:
    marking, thickness = blade["marking"], amount(blade["thickness"], "mm").split()[0]
    return f"{marking}={thickness}" if blade["measured"] else marking
