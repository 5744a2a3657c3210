"""A person at a browser: presses keys, taps, looks at what the page Measure says, and counts it all."""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from urllib.parse import urlencode

from playwright.sync_api import Browser, BrowserContext, Page

WATCH = """
window.refusedByPolicy = [];
const note = (event) => window.refusedByPolicy.push(event.violatedDirective);
document.addEventListener("securitypolicyviolation", note);
performance.setResourceTimingBufferSize(10000);
"""
ANSWERS = """
() => {
  const form = document.querySelector("#take");
  const found = performance.getEntriesByType("resource").filter((each) => form && each.name === form.action);
  performance.clearResourceTimings();
  return found.map((each) => each.duration);
}
"""
PATIENCE = 20_000
"""After so many milliseconds something does not come any more."""
LOOK = r"""
async (longest) => {
  const outbox = document.querySelector("#outbox");
  const answered = new Promise((done) => {
    const look = () => outbox.hidden && done(true);
    new MutationObserver(look).observe(outbox, { attributes: true });
    look();
  });
  const late = new Promise((done) => setTimeout(() => done(false), longest));
  if (longest && !(await Promise.race([answered, late]))) throw new Error(`waits: ${outbox.textContent}`);
  const fields = document.querySelector("#take").elements;
  const value = (name) => (fields[name] ? fields[name].value : "");
  const said = document.querySelector("#said"), asked = document.querySelector("#asked");
  const pattern = document.querySelector("#pattern .number");
  const places = [...document.querySelectorAll("#run .places li a")];
  return {
    state: said.dataset.state,
    words: said.textContent.trim().replace(/\s+/g, ' '),
    asks: asked.dataset.waits || "",
    question: asked.dataset.waits ? asked.querySelector("strong").innerText : "",
    answers: [...asked.querySelectorAll("button[name=answer]")].map((each) => each.value),
    at: value("at"),
    sitting: value("sitting"),
    pattern: pattern.textContent.includes("_") ? pattern.textContent.split(" ")[0] : "",
    unit: value("unit") || pattern.textContent.replace(/^\S*_\S* /, ""),
    bladeSet: value("blade_set"),
    duringRework: fields.during_rework.checked,
    facts: document.querySelector("#at .facts").textContent,
    numbers: places.map((each) => new URL(each.href).searchParams.get("at")),
  };
}
"""


@dataclass(frozen=True, slots=True)
class Seen:
    """What stands on the page Measure after a line: what came of it, what is asked, where one is.

    `pattern` is the size with its last digits blank, where the page offers that; `numbers` are the places of
    the station in their order, as the page numbers them.
    """

    state: str
    words: str
    asks: str
    question: str
    answers: tuple[str, ...]
    at: str
    sitting: str
    pattern: str
    unit: str
    blade_set: str
    facts: str
    during_rework: bool
    numbers: tuple[str, ...]

    @property
    def stop(self) -> tuple[str, str]:
        """Dimension and place."""
        dimension, _, place = self.at.partition("|")
        return dimension, place


@dataclass
class Person:
    """One person at one browser, on one build.

    `strokes` counts keys really pressed, `taps` everything touched or clicked, `answers` how long each
    line took from the page to the durable answer [ms].
    """

    page: Page
    address: str
    build: str
    strokes: int = 0
    taps: int = 0
    lines: int = 0
    answers: list[float] = field(default_factory=list)
    last: Seen | None = None
    began: float = field(default_factory=time.monotonic)

    @property
    def context(self) -> BrowserContext:
        """The browser as this person has it."""
        return self.page.context

    def opens(self, path: str, **asked: str) -> None:
        """Go to a page of this shop by its address."""
        self._leaves()
        query = f"?{urlencode(asked)}" if asked else ""
        answer = self.page.goto(self.address + path + query)
        self.last = None
        assert answer is not None
        assert answer.ok, f"{path}: {answer.status}"

    def puts_it_away(self) -> None:
        """Leave the bench's pages."""
        self._leaves()
        self.page.goto("about:blank")
        self.last = None

    def measures_at(self, station: str, **asked: str) -> None:
        """Go to a station by its address, as a bookmark does."""
        self.opens(f"/builds/{self.build}/measure/{station}", **asked)

    def types(self, text: str, *, enter: str = "Enter", delay: float = 0.0) -> None:
        """Press the keys of a line, without waiting for what comes of it."""
        self.page.keyboard.type(text, delay=delay)
        if enter:
            self.page.keyboard.press(enter)
        self.strokes += len(text) + bool(enter)
        self.lines += bool(enter)

    def says(self, text: str, *, enter: str = "Enter") -> Seen:
        """Type a line, wait until nothing waits any more, and look."""
        self.types(text, enter=enter)
        return self.waits()

    def waits(self) -> Seen:
        """Wait until every line is answered, and look."""
        return self.looks(PATIENCE)

    def waits_for_answer(self) -> Seen:
        """Wait until a question is open, and look."""
        self.page.locator("#asked[data-waits]").wait_for()
        return self.looks()

    def waiting(self) -> list[str]:
        """The lines that are not kept yet, as the page lists them."""
        listed = self.page.locator("#outbox li:not(.trouble)").all_inner_texts()
        return [each.rpartition(":")[0] for each in listed]

    def looks(self, longest: int = 0) -> Seen:
        """What stands on the page; after waiting so long at most [ms] until no line waits there."""
        seen = self.page.evaluate(LOOK, longest)
        self.last = Seen(
            state=seen["state"],
            words=seen["words"],
            asks=seen["asks"],
            question=seen["question"],
            answers=tuple(seen["answers"]),
            at=seen["at"],
            sitting=seen["sitting"],
            pattern=seen["pattern"],
            unit=seen["unit"],
            blade_set=seen["bladeSet"],
            facts=seen["facts"],
            during_rework=seen["duringRework"],
            numbers=tuple(seen["numbers"]),
        )
        return self.last

    def sees(self) -> Seen:
        """What one saw last on this page, or sees now."""
        return self.last or self.looks()

    def taps_on(self, selector: str) -> None:
        """Touch one thing."""
        self.page.locator(selector).first.click()
        self.taps += 1

    def ticks_rework(self) -> None:
        """Tick that these readings are taken in the middle of a rework, or untick it."""
        box = self.page.locator("#take input[name=during_rework]")
        if not box.is_visible():
            self.taps_on(".more-at > summary")
        box.click()
        self.page.locator("#typed").focus()
        self.taps += 1
        self.last = None

    def changes(self, name: str, value: str) -> Seen:
        """Go on with another gauge, setting or person, tapped in the line of the sitting."""
        before = self.looks().sitting
        button = self.page.locator(f'button[name="{name}"][value="{value}"]').first
        if not button.is_visible():
            self.page.locator("#sitting details", has=button).locator("summary").click()
            self.taps += 1
        button.click()
        self.taps += 1
        self.page.locator(f'#hidden input[name=sitting]:not([value="{before}"])').wait_for(state="attached")
        return self.looks()

    def _leaves(self) -> None:
        """Note of the page that one is about to leave how long its answers took; it broke no policy."""
        if self.page.url.startswith("http"):
            self.answers += self.page.evaluate(ANSWERS)
            assert self.page.evaluate("window.refusedByPolicy") == [], self.page.url

    def tells(self, play: str, readings: int) -> str:
        """The end of a play in one line: readings, key strokes, time, slowest answer."""
        self._leaves()
        slowest, count = max(self.answers, default=0.0), len(self.answers)
        middle = sorted(self.answers)[count // 2] if count else 0.0
        seconds = time.monotonic() - self.began
        told = (
            f"{play}: {readings} readings, {self.strokes} key strokes, {self.taps} taps, {seconds:.1f} s, "
            f"answers {middle:.0f} ms in the middle, {slowest:.0f} ms at the slowest"
        )
        print(told)
        return told


@contextmanager
def person_at(browser: Browser, address: str, build: str, *, noted: str = "") -> Iterator[Person]:
    """A person at a browser of their own; at the end no error in its console, nothing refused by the policy.

    `noted` is what the browser itself notes there of a network cut or a line refused: no error of the page.
    """
    context = browser.new_context(viewport={"width": 1024, "height": 900})
    context.set_default_timeout(PATIENCE)
    page = context.new_page()
    errors: list[str] = []
    page.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.add_init_script(WATCH)
    person = Person(page, address, build)
    yield person
    person.opens("/")
    found = [each for each in errors if not (noted and re.search(noted, each))]
    assert found == [], found
    context.close()
