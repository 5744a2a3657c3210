"""Every form of every page, filled in as nobody would: answered in words, shown as text, kept if said so."""

from __future__ import annotations

import asyncio
import itertools
import re
import shutil
from html.parser import HTMLParser
from typing import NamedTuple

import httpx
import pytest
from starlette.routing import Route

from fitwright.records.kinds import GaugeStudy, StudyReading, Typed
from fitwright.web.app import create_app
from fitwright.web.pages.parts.every import FORMS
from fitwright.web.seen import COOKIE as SEEN
from fitwright.wiring import open_shop
from tests.web.every_page import CODE, DEMO

EVIL = "\"'></text></svg></title><script>alert(1)</script><img src=x onerror=alert(1)>{{7*7}}"
HOSTILE = (
    EVIL,
    "a\x00b\x1b[31m\x7f",
    "9" * 10_000,
    "x" * 10_000,
    "-5",
    "../../etc/passwd",
    "=1+1",
    "no such thing",
    "1e999",
    "\u0416\u20ac\u202e12",
    "\u00b2",
    "|",
    "99999999999999999999999",
    "on\r\nSet-Cookie: x=1",
    "1/0",
    "",
)
PAGES = (
    *DEMO.values(),
    *(f"/builds/{CODE}/parts?do={name}" for name in FORMS),
    *(f"/builds/new/{way}" for way in ("questions", "example", "sheet")),
    *(
        f"/shop/{page}?kind=bore+gauge&gauge=M3&of=M3&new=yes"
        for page in ("instruments", "settings", "blades", "rules")
    ),
    f"/builds/{CODE}/record/import",
    f"/builds/{CODE}/record/150",
    "/shop/record/import",
    "/shop/record/keeping",
    "/shop/record/5",
    "/shop/people/builder",
    "/shop/studies?gauge=M3",
    "/shop/studies/GS-1",
)
FIELDS = ("input", "textarea", "select", "button")
SHOWN_SCRIPT = re.compile(r"<script>alert|<img src=x", re.IGNORECASE)
SAID = re.compile("[Kk]ept|taken in")
COOKIES = (
    "device=browser-<b>; at-the-bench=<script>; units=zz; seen=zz",
    f"{SEEN}=" + "00000000.1_" * 300,
    'device="\\777"; at-the-bench=%ff%00; units=\x01',
    "=;=;;; device=" + "browser-" + "9" * 4000,
)


class Form(NamedTuple):
    """A form of a page: where it is sent, and its fields as they stand."""

    action: str
    fields: tuple[tuple[str, str], ...]


class Forms(HTMLParser):
    """The forms that a page would post."""

    def __init__(self, page):
        super().__init__()
        self.page, self.action, self.fields, self.select = page, None, [], ""
        self.found = []

    def handle_starttag(self, tag, attrs):
        given = {name: value or "" for name, value in attrs}
        if tag == "form" and (given.get("method", "").lower() == "post" or "hx-post" in given):
            self.action = given.get("action") or given.get("hx-post") or self.page
            self.fields = []
        elif self.action is not None and given.get("formaction"):
            self.found.append(Form(given["formaction"], tuple(self.fields)))
        elif (
            self.action is not None and tag in ("input", "textarea", "select", "button") and given.get("name")
        ):
            self.fields.append((given["name"], given.get("value", "")))
            self.select = given["name"] if tag == "select" else ""
        elif self.select and tag == "option" and self.fields[-1] == (self.select, ""):
            self.fields[-1] = (self.select, given.get("value", ""))

    def handle_endtag(self, tag):
        if tag == "form" and self.action is not None:
            self.found.append(Form(self.action, tuple(self.fields)))
            self.action = None


class Attack:
    """Whoever sends the forms of a shop, and looks at what comes back."""

    def __init__(self, shop, client, posts):
        self.shop, self.client, self.posts = shop, client, posts
        self.sent, self.kept, self.wrong = 0, 0, []

    def route_of(self, action):
        path = action.partition("?")[0]
        return next((route.path for route in self.posts if route.path_regex.match(path)), None)

    async def forms(self):
        """One form of each kind: to one route, with the same fields."""
        found = {}
        for page in PAGES:
            answer = await self.client.get(page)
            parser = Forms(page)
            parser.feed(answer.text)
            for form in parser.found:
                kind = (self.route_of(form.action), frozenset(name for name, _ in form.fields))
                found.setdefault(kind, form)
        return found

    async def send(self, form, fields, why):
        before = self.shop.record.head().seq
        body = str(httpx.QueryParams(list(fields)))
        headers = {"content-type": "application/x-www-form-urlencoded"}
        answer = await self.client.post(form.action, content=body, headers=headers)
        self.sent += 1
        moved = self.shop.record.head().seq > before
        self.kept += moved
        said = answer.status_code == 303 or (
            answer.status_code == 200 and re.search("[Kk]ept|taken in", answer.text)
        )
        for is_wrong, what in (
            (answer.status_code >= 500, f"answered with {answer.status_code}"),
            (SHOWN_SCRIPT.search(answer.text), "shows words as HTML"),
            (moved and not said, f"wrote, and answered with {answer.status_code}"),
        ):
            if is_wrong:
                self.wrong.append(f"{form.action}, {why}: {what}")


def cases(form, number):
    """A form with each field hostile by itself, then all of them, then none, then one of them twice."""
    values = itertools.cycle(HOSTILE[number % len(HOSTILE) :] + HOSTILE[: number % len(HOSTILE)])
    names = dict.fromkeys(name for name, _ in form.fields if name != "token")
    for name, value in zip(names, values, strict=False):
        yield [(each, value if each == name else own) for each, own in form.fields], f"{name} hostile"
    for value in itertools.islice(values, 2):
        hostile = [(each, own if each in ("token", "form") else value) for each, own in form.fields]
        yield hostile, f"all {value[:9]!r}"
    yield [], "nothing"
    yield [*form.fields, *((name, "zz") for name in names)], "each twice"


async def attacked(shop, app):
    posts = [each for each in app.routes if isinstance(each, Route) and "POST" in (each.methods or ())]
    transport = httpx.ASGITransport(app, raise_app_exceptions=False)
    async with httpx.AsyncClient(transport=transport, base_url="http://127.0.0.1", timeout=60) as client:
        attack = Attack(shop, client, posts)
        forms = await attack.forms()
        missing = {route.path for route in posts} - {route for route, _ in forms}
        for number, form in enumerate(forms.values()):
            for fields, why in cases(form, number):
                await attack.send(form, fields, why)
        for page in DEMO.values():
            answer = await client.get(page, headers={"cookie": COOKIES[len(page) % len(COOKIES)]})
            if answer.status_code >= 500 or SHOWN_SCRIPT.search(answer.text):
                attack.wrong.append(f"{page} afterwards: {answer.status_code}")
    return attack, forms, missing


def study_readings():
    for person, part, repeat in itertools.product(("builder", "apprentice"), "12", range(2)):
        size = 5599 + int(part) + repeat
        typed = Typed(typed=f"{size / 100:.2f} mm", unit="mm", decimals=2, si=size / 100_000)
        yield StudyReading(person=person, part=part, indication=typed)


@pytest.fixture(scope="module")
def attack(prepared, tmp_path_factory):
    """One attack on a copy of the demo shop, judged by all tests of this module."""
    shop = open_shop(shutil.copytree(prepared, tmp_path_factory.mktemp("hostile") / "shop"))
    shop.write([shop.entry(GaugeStudy(code="GS-1", instrument="M3", readings=tuple(study_readings())))])
    yield asyncio.run(attacked(shop, create_app(shop)))
    shop.close()


def test_every_route_that_takes_a_form_is_attacked(attack):
    _, forms, missing = attack
    print(f"{len(forms)} forms")
    assert missing == set()


def test_no_form_is_a_fault_or_shown_as_html_or_written_unsaid(attack):
    done, _, _ = attack
    print(f"{done.sent} forms sent, {done.kept} of them kept")
    assert done.wrong == []
    assert done.sent > 500
    assert done.kept > 10, "nothing hostile is stored, so nothing of it is shown"
