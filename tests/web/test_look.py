"""What the eye and the thumb need: nothing cut off, targets large enough, contrast, zoom, print."""

import pytest

from tests.support.contrast import ENOUGH, LOW_CONTRAST
from tests.support.serving import served

pytestmark = pytest.mark.long

CODE = "corrie-five"
PAGES = {
    "builds": "/?whole=yes",
    "ways to start": "/builds/new",
    "start from an example": "/builds/new/example",
    "start from a sheet": "/builds/new/sheet",
    "start from questions": "/builds/new/questions",
    "sheet": f"/builds/{CODE}/sheet",
    "record": f"/builds/{CODE}/record?kind=note",
    "record of the shop": "/shop/record",
    "entry": f"/builds/{CODE}/record/700",
    "import": f"/builds/{CODE}/record/import",
    "keeping": "/shop/record/keeping?verify=yes",
    "build": f"/builds/{CODE}/fits?state=as-received",
    "inch": "/builds/brackengill-eleven/fits",
    "both": f"/builds/{CODE}/fits?state=both",
    "none": f"/builds/{CODE}/fits?only=outside",
    "fit": f"/builds/{CODE}/fits/main.4.running_clearance",
    "blades": f"/builds/{CODE}/fits/valve.1.inlet.a.lash",
    "centring": f"/builds/{CODE}/fits/pump.housing_offset?state=as-received",
    "sums": "/sums",
    "sum": "/sums/blades?answers.1.thickness=0.06+mm&answers.1.answer=goes&upper_limit=0.07x",
    "sum with a grid": "/sums/gauge-study",
    "sum of sizes": "/sums/expansion?members.1.size=84.1+mm&members.1.material=steel&temperature=90+degC",
    "oil": f"/builds/{CODE}/oil?w.mains=0.02&a.mains=0.01",
    "oil card": f"/builds/{CODE}/oil/card",
    "assembly": f"/builds/{CODE}/assembly",
    "step": f"/builds/{CODE}/assembly/steps/bottom_end.looked_at",
    "tightening group": f"/builds/{CODE}/assembly/groups/head_nuts?at=head.stud.3",
    "tightening group by stretch": f"/builds/{CODE}/assembly/groups/rod_bolts?at=rod.1.bolt.a",
    "order of work on paper": f"/builds/{CODE}/assembly/paper?stage=Bottom+end",
    "tightening group on paper": f"/builds/{CODE}/assembly/groups/head_nuts/paper",
    "put right": f"/builds/{CODE}/put-right?do=grant&subject=main.4.running_clearance",
    "dossier": f"/builds/{CODE}/dossier?do=sign",
    "verify": "/verify",
    "person": "/shop/people/builder",
    "problem": "/nowhere",
}
COMES = {"dossier": ".chapter", "oil": "#oil-rest svg", "oil card": ".oil-grid"}
"""What pages show that come by themselves when their computation is there."""
WIDTHS = [390, 820, 1440]


@pytest.fixture(scope="module")
def address(prepared):
    with served(prepared) as server:
        yield server.address


@pytest.fixture(scope="module")
def opened(browser, address):
    """Each page opened once, with all that can be opened in it."""
    pages = {}

    def open_page(name):
        if name not in pages:
            pages[name] = browser.new_page()
            pages[name].goto(address + PAGES[name])
            if name in COMES:
                pages[name].wait_for_selector(COMES[name], state="attached", timeout=180_000)
        return pages[name]

    return open_page


@pytest.fixture
def looked_at(opened):
    """A page as a device of some width sees it; afterwards all is as before."""
    looked = []

    def look(name, *, width=1440, height=900, details=True):
        page = opened(name)
        looked.append(page)
        page.set_viewport_size({"width": width, "height": height})
        page.evaluate(
            "(open) => document.querySelectorAll('details').forEach((each) => { each.open = open })", details
        )
        return page

    yield look
    for page in looked:
        page.evaluate("document.documentElement.removeAttribute('style')")
        page.emulate_media(media="screen", color_scheme="light")


TOO_WIDE = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
SMALL_TARGETS = """
() => [...document.querySelectorAll("a, button, input, select, summary")]
  .filter((each) => each.getClientRects().length && !each.matches(".skip, [type=hidden]"))
  .map((each) => [each.getBoundingClientRect(), each.outerHTML.slice(0, 90)])
  .filter(([box]) => box.height < 43.9 || box.width < 43.9)
  .map(([box, html]) => `${Math.round(box.width)} x ${Math.round(box.height)}: ${html}`)
"""


@pytest.mark.parametrize("name", PAGES)
def test_nothing_is_cut_off_and_every_target_is_large_enough(looked_at, name):
    for width in WIDTHS:
        page = looked_at(name, width=width)
        assert page.evaluate(TOO_WIDE) <= 0, width
        assert page.evaluate(SMALL_TARGETS) == [], width


@pytest.mark.parametrize("name", PAGES)
def test_at_twice_the_size_nothing_is_cut_off(looked_at, name):
    zoomed = looked_at(name, width=720, height=450)  # what a window of 1440 x 900 holds at 200 %
    assert zoomed.evaluate(TOO_WIDE) <= 0
    larger_text = looked_at(name, width=1024)
    larger_text.evaluate("document.documentElement.style.fontSize = '200%'")
    assert larger_text.evaluate(TOO_WIDE) <= 0


@pytest.mark.parametrize("name", PAGES)
def test_every_word_and_number_has_contrast_enough(looked_at, name):
    page = looked_at(name)
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        assert page.evaluate(LOW_CONTRAST, ENOUGH) == [], scheme


def test_the_measure_of_contrast_sees_what_is_too_faint(looked_at):
    page = looked_at("fit")
    page.evaluate("document.documentElement.style.setProperty('--small', '#8a867c')")
    assert page.evaluate(LOW_CONTRAST, ENOUGH)


def test_a_verdict_is_a_word_and_a_mark_never_colour_alone(looked_at):
    bare = """
    () => [...document.querySelectorAll(".fit .verdict")].filter((each) =>
      !each.querySelector(".word").textContent.trim() ||
      !each.querySelector("svg.mark-icon :is(path, line, text)")).length
    """
    for name in ("build", "fit", "inch"):
        page = looked_at(name)
        assert page.query_selector(".fit .verdict")
        assert page.evaluate(bare) == 0


@pytest.mark.parametrize("name, wanted", [("fit", "button.take"), ("blades", ".blades button")])
def test_what_the_thumb_needs_is_at_the_foot_of_a_small_screen(looked_at, name, wanted):
    page = looked_at(name, width=390, height=844, details=False)
    page.evaluate("scrollTo(0, 0)")
    page.click("#here > summary")
    page.wait_for_timeout(50)  # the form comes into view
    box = page.query_selector(wanted).bounding_box()
    assert box["y"] + box["height"] <= 844
    assert box["y"] > 844 / 2


def test_in_print_forms_and_ways_are_gone_and_ink_is_black(looked_at):
    ink = "getComputedStyle(document.querySelector('.fit .word')).color"
    page = looked_at("fit")
    page.emulate_media(media="print", color_scheme="dark")
    for gone in (".top", "form"):
        assert not page.is_visible(gone)
    assert page.is_visible(".fit .word")
    assert page.is_visible(".steps table")
    assert page.evaluate(ink) == "rgb(0, 0, 0)"
    assert page.pdf(format="A4")[:5] == b"%PDF-"


WITHOUT_NAME = """
() => [...document.querySelectorAll("svg:not([aria-hidden])")]
  .filter((each) => !each.getAttribute("aria-label"))
  .concat([...document.querySelectorAll("input:not([type=hidden]), select")]
    .filter((each) => !each.labels.length))
  .map((each) => each.outerHTML.slice(0, 90))
"""


@pytest.mark.parametrize("name", PAGES)
def test_a_page_has_one_heading_and_names_for_what_is_in_it(looked_at, name):
    page = looked_at(name)
    assert len(page.query_selector_all("h1")) == 1
    assert page.get_attribute("html", "lang") == "en"
    assert page.query_selector("main#content")
    assert page.evaluate(WITHOUT_NAME) == []
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map((each) => each.id)")
    assert len(ids) == len(set(ids))
