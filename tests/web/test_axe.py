"""Every page: nothing serious found by axe, no error in the console, nothing refused by the policy."""

from importlib.resources import files

import pytest

from fitwright.web.app import create_app
from tests.support.assembly_shop import TEXT, Workshop
from tests.support.new_set_sheet import POSITIONS
from tests.support.serving import serving
from tests.web.every_page import BEGUN, BOLTS, DEMO, EMPTY

pytestmark = pytest.mark.long

AXE = (files("axe_playwright_python") / "axe.min.js").read_text("utf-8")
RUN = """
async () => (await axe.run({ resultTypes: ["violations"] })).violations
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
    """Opens a page with the policy in force, then with axe, which only a page without the policy lets in."""
    contexts = [browser.new_context(), browser.new_context(bypass_csp=True)]
    watched, searched = (context.new_page() for context in contexts)
    watched.add_init_script(WATCH)

    def see(address, *, status=200):
        errors = []
        on_console = lambda message: errors.append(message.text) if message.type == "error" else None  # noqa: E731
        on_error = lambda error: errors.append(str(error))  # noqa: E731
        watched.on("console", on_console)
        watched.on("pageerror", on_error)
        assert watched.goto(address).status == status
        watched.evaluate(OPEN_ALL)
        watched.wait_for_timeout(50)
        refused = watched.evaluate("window.refused")
        watched.remove_listener("console", on_console)
        watched.remove_listener("pageerror", on_error)
        found = []
        for scheme in ("light", "dark"):
            searched.emulate_media(color_scheme=scheme)
            searched.goto(address)
            searched.evaluate(OPEN_ALL)
            searched.evaluate(AXE)
            found += [f"{scheme}: {each}" for each in searched.evaluate(RUN)]
        return [each for each in errors if "404" not in each or status == 200], refused, found

    yield see
    for context in contexts:
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
