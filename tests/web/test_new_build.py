"""A build started in the browser: from an example, a sheet, a few questions; and once only."""

import re
from html import unescape

import pytest

from fitwright.bench.starting import BuildExistsError, ReservedCodeError, check_code, code_from
from fitwright.examples import EXAMPLES
from fitwright.examples import sheet_text as example_text
from fitwright.records.kinds import Person
from fitwright.starter.questions import QUESTIONS, questions_for
from fitwright.web import about_build, questions, sheet_text
from fitwright.web.pages import new_build
from tests.support.contexts import unread

WAYS = list(new_build.WAYS)


def form_of(page):
    return dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', page))


def start(client, way, again=None, **fields):
    form = again or form_of(client.get(f"/builds/new/{way}").text)
    return client.post(f"/builds/new/{way}", data=form | {"do": "start"} | fields)


def said(answer):
    found = re.findall(r'role="alert">(.*?)</p>', answer.text, re.DOTALL)
    return [unescape(re.sub(r"<[^>]+>", "", each)) for each in found]


@pytest.fixture
def empty(asking, empty_shop):
    return asking(empty_shop)


def test_the_ways_are_offered_and_others_are_not_there(looking):
    page = looking.get("/builds/new").text
    for way in WAYS:
        assert f'href="/builds/new/{way}"' in page
        assert looking.get(f"/builds/new/{way}").status_code == 200
    assert looking.get("/builds/new/else").status_code == 404


@pytest.mark.parametrize("example", list(EXAMPLES))
def test_an_example_gives_an_empty_build_to_its_sheet(empty, empty_shop, example):
    answer = start(empty, "example", example=example, job_number="2031")
    assert (answer.status_code, answer.headers["location"]) == (303, "/builds/job-2031")
    bench = empty_shop.bench("job-2031")
    assert empty_shop.record.sheet_text(bench.sheet.digest) == example_text(example)
    assert not bench.build.readings
    assert bench.build.started.body.title == bench.sheet.engine.name
    assert bench.build.started.body.job_number == "2031"


def test_a_sheet_is_kept_to_the_letter(empty, empty_shop):
    text = "\n\n" + example_text("corrie-five") + "\n"
    told = {"title": "One", "code": "one", "owner_words": "fast\nand whole", "duty": "sprints"}
    assert start(empty, "sheet", text=text.replace("\n", "\r\n"), **told).status_code == 303
    body = empty_shop.bench("one").build.started.body
    assert empty_shop.record.sheet_text(body.sheet) == text
    assert (body.title, body.owner_words, body.duty) == ("One", "fast\nand whole", "sprints")


def test_a_file_counts_as_the_text(empty, empty_shop):
    form = form_of(empty.get("/builds/new/sheet").text) | {"do": "start", "code": "filed"}
    content = example_text("brackengill-eleven").encode()
    assert empty.post("/builds/new/sheet", data=form, files={"file": ("a.toml", content)}).status_code == 303
    assert empty_shop.bench("filed").sheet.engine.id == "brackengill-eleven"


def test_a_file_that_is_no_text_is_refused_in_one_sentence(empty, empty_shop):
    form = form_of(empty.get("/builds/new/sheet").text) | {"do": "start"}
    answer = empty.post("/builds/new/sheet", data=form, files={"file": ("a.toml", b"name = \xff")})
    assert answer.status_code == 422
    assert said(answer) == ["The file is not UTF-8 text at byte 7: save it as UTF-8."]
    assert empty_shop.builds() == {}


def test_the_problems_of_a_sheet_stand_at_their_lines_and_nothing_is_lost(empty, empty_shop):
    text = "format = 1\nextra = 2\n<b>"
    answer = start(empty, "sheet", text=text, title="Kept <here>")
    assert answer.status_code == 422
    assert 'data-line="3"' in answer.text
    assert "&lt;b&gt;</textarea>" in answer.text
    assert 'value="Kept &lt;here&gt;"' in answer.text
    assert empty_shop.builds() == {}


def test_an_empty_sheet_says_what_is_missing(empty):
    assert start(empty, "sheet", text="").status_code == 422


def test_a_text_is_looked_at_without_starting_anything(empty, empty_shop):
    answer = empty.post("/builds/new/sheet", data={"do": "look", "text": example_text("corrie-five")})
    assert "No problems: 148 fits" in answer.text
    assert empty_shop.record.head() is None


def test_questions_make_a_sheet_of_what_was_answered(empty, empty_shop):
    answers = {"name": "Try me", "arrangement": "vee", "bore": "3 1/2 in", "units": "inch"}
    assert start(empty, "questions", **answers).headers["location"] == "/builds/try-me"
    engine = empty_shop.bench("try-me").sheet.engine
    assert (engine.layout.arrangement, engine.layout.cylinders, engine.unit_family) == ("vee", 8, "inch")


def test_a_wrong_answer_is_said_at_its_question(empty, empty_shop):
    answer = start(empty, "questions", name="Try me", bore="eighty", stroke="84")
    wrong = re.search(
        r'id="q-bore"[^>]*aria-invalid="true".*?id="w-bore"[^>]*>(.*?)</p>', answer.text, re.DOTALL
    )
    assert "does not start with a number" in wrong[1]
    assert 'value="84"' in answer.text
    assert empty_shop.builds() == {}


def test_what_does_not_matter_is_put_away_and_not_taken(empty, empty_shop):
    fields = {"name": "Two", "valve_train": "two-stroke", "valve_adjustment": "nothing of the kind"}
    page = empty.post("/builds/new/questions", data={"do": "look"} | fields).text
    assert re.search(r'data-question="valve_adjustment" hidden', page)
    assert not re.search(r'data-question="bore" hidden', page)
    assert start(empty, "questions", **fields).status_code == 303


def test_what_the_answers_make_is_shown_before(empty, empty_shop):
    page = empty.post(
        "/builds/new/questions", data={"do": "look", "arrangement": "flat", "cylinders": "6"}
    ).text
    assert questions.UNNAMED in page
    assert "Main journal diameter?</dt><dd>54.000 mm" in page
    assert f'data-matter="{" ".join(each.name for each in questions_for({"arrangement": "flat"}))}"' in page
    assert empty_shop.record.head() is None


def test_every_question_is_asked_once():
    asked = [name for _, names in questions.GROUPS for name in names]
    assert sorted(asked) == sorted(question.name for question in QUESTIONS)


def test_sent_twice_starts_once(empty, empty_shop):
    form = form_of(empty.get("/builds/new/example").text)
    places = {
        start(empty, "example", again=form, example="corrie-five").headers["location"] for _ in range(2)
    }
    assert places == {"/builds/corrie-five"}
    assert list(empty_shop.builds()) == ["corrie-five"]


@pytest.mark.parametrize(
    "code, words",
    [
        ("corrie-five", 'A build "corrie-five" is there already'),
        ("new", "cannot be called"),
        ("New", "cannot be called"),
        ("a/b", "cannot be or hold '/'"),
    ],
)
def test_a_code_that_cannot_be_is_said_at_its_field(client, shop, code, words):
    before = shop.record.head()
    answer = start(client, "example", example="corrie-five", code=code, title="Mine")
    assert answer.status_code == 422
    assert len(said(answer)) == 1
    assert words in said(answer)[0]
    assert re.search(r'name="code" value="[^"]*"[^>]*aria-invalid="true"', answer.text)
    assert 'value="Mine"' in answer.text
    assert shop.record.head() == before


def test_characters_that_nobody_sees_are_refused(empty, empty_shop):
    answer = start(empty, "example", example="corrie-five", title="a\u202eb")
    assert answer.status_code == 422
    assert "character that nobody can see" in said(answer)[0]
    assert empty_shop.builds() == {}


def test_a_stale_page_takes_nothing(empty, empty_shop):
    answer = start(empty, "example", example="corrie-five", token="old", title="Mine")
    assert answer.status_code == 403
    assert 'value="Mine"' in answer.text
    assert empty_shop.builds() == {}


def test_an_example_of_no_such_name_is_refused(empty):
    answer = start(empty, "example", example="../../etc")
    assert answer.status_code == 422
    assert "no example" in said(answer)[0].lower()


def test_who_started_it_is_recorded_and_remembered(empty, empty_shop):
    empty_shop.write([empty_shop.entry(Person(code="builder", name="Builder"))])
    assert start(empty, "example", example="corrie-five", person="builder").status_code == 303
    assert empty_shop.bench("corrie-five").build.started.entry.person == "builder"
    assert empty.cookies["at-the-bench"] == "builder"
    assert start(empty, "example", example="corrie-five", person="nobody").status_code == 422


def test_a_page_in_use_is_led_on_by_its_header(empty):
    form = form_of(empty.get("/builds/new/example").text) | {"do": "start", "example": "corrie-five"}
    answer = empty.post("/builds/new/example", data=form, headers={"hx-request": "true"})
    assert (answer.status_code, answer.headers["hx-redirect"]) == (200, "/builds/corrie-five")


def test_a_code_is_made_that_is_free():
    assert code_from("Job 7", {"job-7", "job-7-2"}) == "job-7-3"
    assert code_from("***", ()) == "job"
    with pytest.raises(BuildExistsError):
        check_code("a", {"a"})
    with pytest.raises(ReservedCodeError):
        check_code("NEW", ())


def test_every_field_is_shown(client, shop, read):
    for way in ("", *WAYS):
        assert client.get(f"/builds/new/{way}".rstrip("/")).status_code == 200
    client.post("/builds/new/questions", data={"bore": "x"})
    client.post("/builds/new/sheet", data={"text": "x = 1"})
    client.post("/builds/new/sheet", data={"text": example_text("corrie-five")})
    start(client, "example", example="corrie-five", code="new")
    assert not unread([about_build, questions, sheet_text, new_build], read)
