"""Every page: nothing serious found by axe, contrast enough, no error in the console, no breach of policy."""

from importlib.resources import files

import pytest

from fitwright.web.app import create_app
from tests.support.assembly_shop import TEXT, Workshop
from tests.support.contrast import ENOUGH, LOW_CONTRAST
from tests.support.new_set_sheet import POSITIONS
from tests.support.serving import serving
from tests.web.every_page import BEGUN, BOLTS, DEMO, EMPTY

pytestmark = pytest.mark.long

AXE = (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")
RUN = """
async () => (await axe.run({
  resultTypes: ["violations"],
  rules: { "color-contrast": { enabled: false } },
})).violations
  .filter((found) => ["serious", "critical"].includes(found.impact))
  .map((found) => [found.id, ...found.nodes.slice(0, 3).map((each) => each.html.slice(0, 140))].join(" | "))
"""
WATCH = """
window.refused = [];
document.addEventListener("securitypolicyviolation", (event) => {
  window.refused.push(event.violatedDirective + " " + event.blockedURI);
});
"""
OPEN_ALL = "document.querySelectorAll('details').forEach((each) => { each.open = true })"


@pytest.fixture
def seen(browser):
    """Opens a page with the policy in force; what is refused is noted before axe is let in."""
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script(WATCH)

    def see(address, *, status=200):
        errors = []
        on_console = lambda message: errors.append(message.text) if message.type == "error" else None  # noqa: E731
        on_error = lambda error: errors.append(str(error))  # noqa: E731
        page.on("console", on_console)
        page.on("pageerror", on_error)
        assert page.goto(address).status == status
        page.evaluate(OPEN_ALL)
        page.wait_for_timeout(50)
        refused = page.evaluate("window.refused")
        page.remove_listener("console", on_console)
        page.remove_listener("pageerror", on_error)
        page.evaluate(AXE)
        found = page.evaluate(RUN)
        for scheme in ("light", "dark"):  # by our own measure, which asks for more than axe and is quicker
            page.emulate_media(color_scheme=scheme)
            found += [f"{scheme}: {each}" for each in page.evaluate(LOW_CONTRAST, ENOUGH)]
        page.emulate_media(color_scheme="light")
        return [each for each in errors if "404" not in each or status == 200], refused, found

    yield see
    context.close()


def all_right(seen, address, pages):
    wrong = {}
    for name, path in pages.items():
        errors, refused, found = seen(address + path, status=404 if name == "problem" else 200)
        if errors or refused or found:
            wrong[name] = (errors, refused, found)
    assert wrong == {}


@pytest.fixture(scope="module")
def demo_address(shown_shop):
    shown_shop.oil("corrie-five").best()  # compiled now, so that no page is late for it
    with serving(create_app(shown_shop)) as address:
        yield address


@pytest.mark.parametrize("name", DEMO)
def test_of_the_demo(seen, demo_address, name):
    all_right(seen, demo_address, {name: DEMO[name]})


def test_of_a_build_of_which_nothing_is_measured(seen, begun_shop):
    with serving(create_app(begun_shop)) as address:
        all_right(seen, address, BEGUN)


def test_of_a_build_whose_fasteners_are_positions(seen, opened, tmp_path):
    shop = Workshop.open(opened(tmp_path / "bolts"), TEXT + POSITIONS).shop
    with serving(create_app(shop)) as address:
        all_right(seen, address, BOLTS)


def test_of_an_empty_shop(seen, empty_shop):
    with serving(create_app(empty_shop)) as address:
        all_right(seen, address, EMPTY)
