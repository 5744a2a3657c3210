"""Readings posted: durable, answered with the verdict; questions, blades, repeats, refusals, faults."""

import re
import threading

import pytest

from fitwright.assess.results import State
from fitwright.records.entry import NewEntry
from fitwright.records.errors import CannotWriteError
from tests.support.serving import form_of

CODE = "corrie-five"
FIT = f"/builds/{CODE}/fits/main.4.running_clearance"
LASH = f"/builds/{CODE}/fits/valve.1.inlet.a.lash"
READINGS = f"/builds/{CODE}/readings"
HOUSING = "main.4.housing_bore|front/0"
SETTING = "S-034"  # the bore gauge in the micrometer, as for the readings after the rework
DATA = {"accept": "application/json"}


def readings(shop):
    return [each for each in shop.record.entries(build=CODE) if each.kind == "reading"]


@pytest.fixture
def fields(client):
    """A form as the page gives it, each time with an id of its own."""

    def fill(page=FIT, **typed):
        return form_of(client.get(page).text) | {"place": HOUSING, "setting": SETTING} | typed

    return fill


def test_a_reading_is_durable_and_answered_with_its_verdict(client, shop, fields, opened, folder):
    before = len(readings(shop))
    answer = client.post(READINGS, data=fields(value="60.5120"))
    assert answer.status_code == 200
    assert re.search(r"Kept as entry \d+: 60\.5120 mm", answer.text)
    again = opened(folder)
    assert len(readings(again)) == before + 1
    last = readings(again)[-1]
    assert last.body["observation"]["value"]["typed"] == "60.5120"
    assert last.body["members"] == {"block": "block-c5-0117"}
    verdict = again.assessor(CODE).verdict("main.4.running_clearance")
    assert last.id in again.assessor(CODE).verdict("main.4.housing_bore").readings
    assert f'<div class="word">{verdict.words}</div>' in answer.text


def test_a_reading_that_does_not_count_says_why_and_what_is_missing(client, shop, fields):
    answer = client.post(READINGS, data=fields(value="60.512", setting="", instrument="B1"))
    assert "It does not count yet: Bore gauge 35 to 160 mm has no setting recorded" in answer.text
    assert "Kept as entry" in answer.text
    assert readings(shop)[-1].body["observation"]["setting"] is None
    assert re.search(r"<details[^>]* open>\s*<summary>Another gauge or setting", answer.text)


def test_the_answer_names_the_other_fits_that_the_reading_speaks_for(client, fields):
    answer = client.post(READINGS, data=fields(value="60.512"))
    assert re.search(r'class="said kept".*fits/main\.4\.housing_bore\?', answer.text, re.DOTALL)


def test_after_a_reading_the_form_stands_at_the_next_place_with_a_fresh_id(client, fields):
    sent = fields(value="60.512")
    answer = client.post(READINGS, data=sent)
    now = form_of(answer.text)
    assert now["place"] == "main.4.housing_bore|front/60"
    assert now["entry_id"] != sent["entry_id"]
    assert 'name="value"' in answer.text
    assert 'value="60.512"' not in answer.text


def test_the_same_form_sent_twice_gives_the_first_answer_again(client, shop, fields):
    sent = fields(value="60.512")
    first, second = (client.post(READINGS, data=sent, headers=DATA).json() for _ in range(2))
    assert first["acknowledgement"] == second["acknowledgement"]
    assert first["fits"] == second["fits"] != []
    assert [each.id for each in readings(shop)].count(sent["entry_id"]) == 1


def test_the_same_id_with_other_content_is_refused_and_what_was_typed_stays(client, shop, fields):
    sent = fields(value="60.512")
    kept = client.post(READINGS, data=sent, headers=DATA).json()["acknowledgement"]["seq"]
    answer = client.post(READINGS, data=sent | {"value": "60.514"})
    assert answer.status_code == 409
    assert f"used for another entry before (entry {kept}), and nothing was stored" in answer.text
    assert 'value="60.514"' in answer.text
    now = form_of(answer.text)
    assert now["entry_id"] != sent["entry_id"]
    assert client.post(READINGS, data=sent | now | {"value": "60.514"}).status_code == 200
    assert [each.body["observation"]["value"]["typed"] for each in readings(shop)[-2:]] == [
        "60.512",
        "60.514",
    ]


def test_a_slip_is_asked_about_and_the_guess_taken_is_kept_with_the_question(client, shop, fields):
    before = shop.record.head()
    sent = fields(value="605.12")
    asked = client.post(READINGS, data=sent)
    assert asked.status_code == 200
    assert shop.record.head() == before
    assert 'value="605.12"' in asked.text
    guess = re.search(r'name="answer_to_question" value="([^"]+)">Take', asked.text).group(1)
    assert guess == "60.512 mm"
    now = form_of(asked.text)
    assert now["question"]
    answer = client.post(READINGS, data=sent | now | {"answer_to_question": guess})
    assert "Kept as entry" in answer.text
    question = list(shop.record.entries(build=CODE))[-1]
    assert question.kind == "question answered"
    assert (question.body["typed"], question.body["answer"]) == ("605.12", guess)
    assert readings(shop)[-1].body["observation"]["value"]["si"] == pytest.approx(0.060512, abs=1e-12)


def test_a_value_can_be_kept_as_typed_and_the_question_is_kept_with_it(client, shop, fields):
    sent = fields(value="605.12")
    now = form_of(client.post(READINGS, data=sent).text)
    answer = client.post(READINGS, data=sent | now | {"answer_to_question": "keep"})
    assert "Kept as entry" in answer.text
    assert readings(shop)[-1].body["observation"]["value"]["si"] == pytest.approx(0.60512, abs=1e-12)
    question = next(
        each for each in reversed(list(shop.record.entries(build=CODE))) if each.kind == "question answered"
    )
    assert question.body["answer"] == "keep"


def test_an_answer_to_another_question_does_not_wave_a_value_through(client, shop, fields):
    before = shop.record.head()
    sent = fields(value="605.12", question="another", answer_to_question="keep")
    assert "A question first" in client.post(READINGS, data=sent).text
    assert shop.record.head() == before


def test_blades_are_answered(client, shop, fields):
    sent = fields(LASH)
    place = re.search(r'<option value="(valve\.1\.inlet\.a\.cam_gap\|[^"]+)"', client.get(LASH).text).group(1)
    answer = client.post(READINGS, data=sent | {"place": place, "blade": "F3:0.19", "answer": "goes"})
    assert answer.status_code == 200, answer.text
    assert "F3:0.19 goes" in answer.text
    assert readings(shop)[-1].body["observation"] == {
        "type": "blade",
        "blades": ["F3:0.19"],
        "answer": "goes",
    }
    together = fields(LASH) | {
        "place": place,
        "blade": "F2:0.06",
        "second_blade": "F2:0.02",
        "answer": "does not go",
    }
    assert "F2:0.06 with F2:0.02 does not go" in client.post(READINGS, data=together).text


@pytest.mark.parametrize(
    "typed, words",
    [
        ({}, "No value was typed"),
        ({"value": "sixty"}, "sixty"),
        ({"value": "60.5 psi"}, "psi"),
        ({"blade": "F3:0.19"}, "No value was typed"),
        ({"answer": "goes"}, "Which blade"),
        ({"answer": "goes", "blade": "F3:0.19", "value": "60.5"}, "A value was typed and a blade tried"),
        ({"answer": "fits", "blade": "F3:0.19"}, "A blade cannot"),
        ({"answer": "goes", "blade": "Z9:0.19"}, "No blade"),
        ({"value": "60.5", "place": "main.4.housing_bore|top"}, "main.4.housing_bore"),
        ({"value": "60.5", "place": "main.4.housing|front/0"}, "main.4.housing_bore"),
        ({"value": "60.5", "instrument": "Z9", "setting": ""}, "Z9"),
        ({"value": "60.5", "instrument": "M3"}, "S-034 is a setting of B1, not of M3"),
        ({"value": "60.5", "setting": "S-999"}, "No setting"),
    ],
)
def test_what_is_not_in_order_is_said_in_a_sentence_and_nothing_is_stored(client, shop, fields, typed, words):
    before = shop.record.head()
    answer = client.post(READINGS, data=fields(**typed))
    assert answer.status_code == 422
    said = re.search(r'class="said refused">\s*<p>(.*?)</p>', answer.text, re.DOTALL).group(1)
    assert words in said
    assert "Traceback" not in answer.text
    assert shop.record.head() == before
    if "value" in typed:
        assert f'value="{typed["value"]}"' in answer.text


def test_a_form_that_names_no_fit_is_refused(client, fields):
    answer = client.post(READINGS, data=fields(value="60.512") | {"subject": "none"})
    assert answer.status_code == 404
    assert "nothing was taken" in answer.text


def test_a_failed_write_is_said_and_what_was_typed_stays(client, shop, fields, monkeypatch):
    def full(_, **_more):
        raise CannotWriteError("the disk is full", "free some space")

    before = shop.record.head()
    sent = fields(value="60.512", note="rear cap on")
    with monkeypatch.context() as patched:
        patched.setattr(shop.record, "append", full)
        answer = client.post(READINGS, data=sent)
        assert answer.status_code == 503
        assert "Not kept" in answer.text
        assert "disk is full; free some space, then enter it again" in answer.text
        assert 'value="60.512"' in answer.text
        assert 'value="rear cap on"' in answer.text
    assert shop.record.head() == before
    again = form_of(answer.text)
    assert again["entry_id"] == sent["entry_id"]
    assert client.post(READINGS, data=sent | again).status_code == 200
    assert shop.record.head().seq == before.seq + 1


def test_the_place_offered_first_is_one_without_a_reading_on_the_route_that_governs(
    asking, begun_shop, client
):
    subject = "main.1.running_clearance"
    offered = form_of(asking(begun_shop).get(f"/builds/first/fits/{subject}").text)["place"].partition("|")[0]
    found = begun_shop.assessor("first").judge.subjects[subject]
    route = next(each for each in found.routes if each.name == found.governing_route)
    assert offered in {term.dimension for term in route.chain}
    assert form_of(client.get(FIT).text)["place"].partition("|")[0] == "main.4.journal"


def test_the_form_names_the_gauge_of_the_sitting_and_its_unit(client):
    page = client.get(FIT).text
    assert re.search(
        r'<optgroup label="Main 4 housing, Bore gauge 35 to 160 mm, reads mm, not set in this sitting">', page
    )
    assert re.search(r'<output class="unit number" id="unit">mm</output>', page)
    assert "reads thou" in page
    lash = client.get(LASH).text
    assert "by blades" in lash
    assert lash.index("What the blade did") < lash.index('name="value"')


def test_as_received_is_looked_at_and_not_added_to(client):
    page = client.get(f"{FIT}?state=as-received").text
    assert "<form" not in page
    assert "Go to the current state" in page


def test_who_asks_briefly_gets_only_the_acknowledgement(client, shop, fields):
    brief = client.post(
        READINGS, data=fields(value="60.512"), headers=DATA | {"prefer": "return=minimal"}
    ).json()
    assert brief["fits"] == []
    assert brief["acknowledgement"]["seq"] == shop.record.head().seq
    whole = client.post(READINGS, data=fields(value="60.513"), headers=DATA).json()
    assert {each["id"] for each in whole["fits"]} >= {"main.4.running_clearance", "main.4.housing_bore"}


def test_devices_writing_at_once_are_each_answered_with_their_own_verdicts(client, shop, fields):
    """Whichever thread takes the entries up, each answer holds the verdicts on what it read."""
    shop.assessment(CODE)
    forms = [
        fields(
            value=f"60.51{number}",
            place=f"main.{number + 1}.housing_bore|front/0",
            subject=f"main.{number + 1}.running_clearance",
        )
        for number in range(6)
    ]
    answers = {}

    def send(number, form):
        answers[number] = client.post(READINGS, data=form, headers=DATA).json()

    threads = [threading.Thread(target=send, args=each) for each in enumerate(forms)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    for number, answer in answers.items():
        own = {each["id"]: each for each in answer["fits"]}
        assert f"main.{number + 1}.housing_bore" in own
        assert forms[number]["entry_id"] in own[f"main.{number + 1}.housing_bore"]["readings"]
    for subject, held in shop.assessment(CODE).verdicts.items():
        fresh = (
            type(shop)(shop.record).assessor(CODE).verdict(subject) if subject.startswith("main.1.") else held
        )
        assert fresh == held


def test_a_reading_written_by_another_program_shows_on_the_next_page(client, shop, fields, opened, folder):
    client.get(FIT)
    other = opened(folder)
    sent = fields(value="60.512")
    entry = readings(shop)[-1]
    body = dict(entry.body) | {"place": "front/0", "note": "from the terminal"}
    other.write([NewEntry(id=sent["entry_id"], build=CODE, kind="reading", body=body)])
    client.get(FIT)
    assert sent["entry_id"] in shop.bench(CODE).build.readings
    assert shop.assessment(CODE, State.CURRENT).head == other.record.head().seq
