"""A person at the pages of assembly: what a record says was done is done again through its forms."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from playwright.sync_api import Locator

from fitwright.examples import photo_files
from fitwright.model.fastener import Pass
from fitwright.model.sheet import Sheet
from tests.plays.entering import UNFOLD, Body, Entering

GOOD_UNTIL = "2090-12"
"""The tins of the play: those of the record are past their day by now."""
PUT_ON = timedelta(days=2)
"""So long ago they went on, so that what has to cure has cured."""


@dataclass
class Assembling(Entering):
    """One person who assembles an engine; `pins` are those that people have set so far.

    `new_pins` are the PINs that people will set with the first thing that they sign.
    """

    sheet: Sheet = field(kw_only=True)
    new_pins: Mapping[str, str] = field(kw_only=True)
    pins: dict[str, str] = field(default_factory=dict)

    @property
    def forms(self) -> Mapping[str, Callable[[Body], None]]:
        """The form for each kind of entry."""
        return {
            **super().forms,
            "step done": self.step_done,
            "step released": self.release,
            "witness invited": self.witness,
            "consumable used": self.used,
            "tightening": self.tightening,
            "tightening check": self.look,
            "loosening": self.loosening,
            "heat cycle": self.heat,
            "concession": lambda body: self.permission("grant", body, body["granted_by"]),
            "deviation permit": lambda body: self.permission("permit", body, body["granted_by"]),
            "photo": self.photo,
        }

    # Steps.

    def step_done(self, body: Body) -> None:
        """The work of a step is done."""
        form = self.at_step(body["step"], "done")
        self._fill(form, {"words": body.get("words", ""), "person": body.get("done_by", self.who)})
        self._send(form)

    def release(self, body: Body) -> None:
        """A hold point is released, by a person with a PIN."""
        form = self.at_step(body["step"], "release")
        self._fill(form, {"words": body.get("words", "")})
        self.signs(form, body["released_by"])

    def witness(self, body: Body) -> None:
        """Somebody was invited, was present, or did not come."""
        form = self.at_step(body["step"], "witness")
        form.locator(f"input[name=answer][value='{body['answer']}']").check()
        self._fill(form, {"words": body.get("words", "")})
        self._send(form)

    def used(self, body: Body) -> None:
        """A consumable went on."""
        form = self.at_step(body["step"], "used")
        applied = (datetime.now(UTC) - PUT_ON).isoformat(timespec="minutes")
        said = {"consumable": body["consumable"], "applied_at": applied}
        if "batch" in body:
            said |= {"batch": body["batch"], "expires": GOOD_UNTIL}
        self._fill(form, said)
        self._send(form)

    def heat(self, body: Body) -> None:
        """The engine ran to heat and cooled."""
        form = self._opened("/assembly", "heat")
        self._fill(form, {"words": body["words"]})
        self._send(form)

    def photo(self, body: Body) -> None:
        """A photo of what a step asks for: the sketch that the example has in its place."""
        form = self._opened("/parts", "photo", subject=body["subject"], caption=body["caption"])
        picture = photo_files(self.person.build)[body["subject"]]
        form.locator("input[type=file]").set_input_files(
            {"name": "photo.jpg", "mimeType": "image/jpeg", "buffer": picture}
        )
        self._send(form)

    # Tightening groups.

    def tightening(self, body: Body) -> None:
        """All of a pass in one touch where it is as the sheet says; else one fastener after the other."""
        group = self.sheet.tightening_groups[body["group"]]
        wanted = {each.id for each in group.fasteners}
        asks = group.passes[body["number"] - 1]
        plain = set(body["fasteners"]) == wanted and _as_the_sheet_says(body, asks)
        if plain and not (group.one_time_use and body["number"] == 1):
            self.all_of_pass(body["group"], body["number"], body["wrench"])
            return
        for name in body["fasteners"]:
            self.one(body, name)

    def all_of_pass(self, group: str, number: int, wrench: str) -> None:
        """All fasteners that want a pass, in one touch."""
        self.at_group(group, wrench, **{"pass": str(number)})
        self.person.taps_on("#tighten button[name=all]")
        self.came("Kept")

    def one(self, body: Body, name: str) -> None:
        """One fastener: its torque or stretch, which bolt it is, Enter."""
        self.types_one(body, name)
        self.person.page.keyboard.press("Enter")
        self.came("Kept")

    def types_one(self, body: Body, name: str) -> None:
        """Everything about one fastener, but for Enter."""
        self.at_group(body["group"], body["wrench"], at=name, **{"pass": str(body["number"])})
        page, torque = self.person.page, body["torque"]["typed"].split()[0]
        stretch = body.get("stretch")
        said = {"also": torque if stretch else "", "part": body.get("members", {}).get(name, "")}
        self._fill(page.locator("#tighten"), said | {"read": body["read"] == "peak"})
        typed = stretch["typed"].split()[0] if stretch else torque
        page.locator("#typed").fill(typed)
        self.person.strokes += len(typed) + 1

    def came(self, words: str) -> None:
        """What came of it, once what is asked is kept as it is."""
        page = self.person.page
        while True:
            page.locator(f"#came .said:has-text('{words}'), #tighten .question").first.wait_for()
            if page.locator("#tighten .question").count() == 0:
                return
            question = page.locator("#tighten .question").inner_text()
            page.locator("#tighten .question button[value=keep]").click()
            page.wait_for_function(
                "(asked) => document.querySelector('#tighten .question')?.innerText !== asked", arg=question
            )
            self.person.taps += 1

    def at_group(self, group: str, wrench: str, **asked: str) -> None:
        """The page of a group with the right wrench in hand."""
        self.person.opens(f"/builds/{self.person.build}/assembly/groups/{group}", **asked)
        own = self.person.page.locator("#tighten select[name=wrench]")
        if own.input_value() != wrench:
            own.evaluate(UNFOLD)
            own.select_option(wrench)
            self.person.taps += 1

    def look(self, body: Body) -> None:
        """Marked, or checked by a second person."""
        form = self._opened(f"/assembly/groups/{body['group']}", "check")
        form.locator(f"input[name=check][value='{body['check']}']").check()
        self._fill(form, {"words": body.get("words", ""), "person": body["checked_by"]})
        self._send(form)

    def loosening(self, body: Body) -> None:
        """Fasteners loosened: which, why, and what was read of them."""
        form = self._opened(f"/assembly/groups/{body['group']}", "loosen")
        self._ticks(form, "fasteners", body["fasteners"])
        amounts = {name: body[name]["typed"] for name in ("breakaway_torque", "length_after") if name in body}
        self._fill(form, {"because": body["because"]} | amounts)
        self._send(form)

    # Rework, permissions, signatures.

    def orders(self, body: Body) -> str:
        """A rework ordered; the code that it was given."""
        form = self._opened("/put-right", "order", part=body["part"], subject=body["dimensions"][0])
        form.locator(f"input[name=change][value='{body['change']}']").check()
        self._fill(form, {"words": body["words"]})
        self._ticks(form, "dimension", body["dimensions"])
        self._send(form)
        self.person.opens(f"/builds/{self.person.build}/put-right")
        open_one = self.person.page.locator("ul.decisions li", has_text="not carried out yet")
        return open_one.locator("h3 a").inner_text().split()[0]

    def carried_out(self, order: str) -> None:
        """The work of an order is done."""
        self._send(self._opened(f"/put-right/orders/{order}", "done"))

    def followed_up(self, order: str) -> None:
        """Everything that the reworked sizes feed was looked at, and holds."""
        form = self._opened(f"/put-right/orders/{order}", "check")
        for each in form.locator("input[type=radio][value=holds]").all():
            each.check()
        self._send(form)

    def permission(self, do: str, body: Body, by: str) -> None:
        """A concession or a deviation permit, signed."""
        form = self._opened("/put-right", do, subject=body["subject"])
        ends = {name: body[name]["typed"] for name in ("lowest", "highest") if name in body}
        self._fill(form, ends | {"because": body["because"], "until": body["until"]})
        self.signs(form, by)

    def signs(self, form: Locator, person: str) -> None:
        """Send a form that is signed: with the PIN of who signs, set with it the first time."""
        self._fill(form, {"person": person})
        if person in self.pins:
            self._fill(form, {"pin": self.pins[person]})
        else:
            new = self.new_pins[person]
            self._fill(form, {"pin_new": new, "pin_again": new})
            self.pins[person] = new
        self._send(form)

    def _ticks(self, form: Locator, name: str, wanted: Collection[str]) -> None:
        """Tick these boxes, and no other."""
        boxes = form.locator(f"input[name={name}]")
        for box in boxes.all():
            if box.is_checked() is not (box.get_attribute("value") in wanted):
                self._tap(box)
        ticked = form.locator(f"input[name={name}]:checked")
        assert {each.get_attribute("value") for each in ticked.all()} == set(wanted)

    # Where one goes.

    def at_step(self, step: str, do: str) -> Locator:
        """A form of a step."""
        return self._opened(f"/assembly/steps/{step}", do)

    def _opened(self, path: str, do: str, **asked: str) -> Locator:
        self.person.opens(f"/builds/{self.person.build}{path}", do=do, **asked)
        return self.person.page.locator("#entry form.record")


def _as_the_sheet_says(body: Body, asks: Pass) -> bool:
    stated = asks.torque.si if asks.torque is not None else None
    return body["read"] == "set" and "stretch" not in body and body["torque"]["si"] == stated
