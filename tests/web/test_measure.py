"""The page Measure: lines taken, asked about, refused; blades, undo, moves, sittings; the echo."""

import re
import uuid

import pytest

from fitwright.records.kinds import Instrument, Person
from fitwright.web.pages.measure import asked, blades, parts, place, run, show, sitting, stations
from tests.support.contexts import unread

CODE = "corrie-five"
MAINS = f"/builds/{CODE}/measure/mains"
PUMP = f"/builds/{CODE}/measure/pump"
ASKED = ("asked", "asked_key", "asked_text", "asked_about")
GAUGE = Instrument(
    code="M1",
    title="Micrometer",
    type="outside micrometer",
    unit="mm",
    resolution=1e-6,
    repeatability=1e-6,
)
JOURNAL = "main.2.journal|front/0"


def hidden(page, name):
    found = re.search(rf'name="{name}" value="([^"]*)"', page)
    assert found, name
    return found[1]


def words(page):
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", page))


class AtBrowser:
    """Somebody at one browser, at one station."""

    def __init__(self, client, address):
        self.client, self.address = client, address
        self.page = client.get(address).text

    def send(self, text="", *, htmx=True, status=200, **more):
        fields = {
            name: hidden(self.page, name)
            for name in ("token", "at", "sitting", "way", "from")
            if f'name="{name}"' in self.page
        }
        if 'name="asked"' in self.page:
            fields |= {
                name: hidden(self.page, name) for name in ("asked", "asked_key", "asked_text", "asked_about")
            }
            fields |= dict(re.findall(r'name="(answered-[^"]+)" value="([^"]*)"', self.page))
        fields |= {"entry_id": uuid.uuid4().hex, "text": text, "token": self.token} | more
        headers = {"hx-request": "true"} if htmx else {}
        answer = self.client.post(self.address, data=fields, headers=headers)
        assert answer.status_code == status, words(answer.text)
        self.page = answer.text
        return answer

    @property
    def token(self):
        if not hasattr(self, "_token"):
            self._token = hidden(self.page, "token")
        return self._token

    @property
    def said(self):
        return words(self.page.partition('id="said"')[2].partition("</div>")[0].partition(">")[2])

    @property
    def at(self):
        return hidden(self.page, "at")

    def go(self, at):
        self.page = self.client.get(self.address, params={"at": at}).text


@pytest.fixture
def mains(client):
    person = AtBrowser(client, MAINS)
    person.go(JOURNAL)
    return person


@pytest.fixture
def pump(client):
    person = AtBrowser(client, PUMP)
    person.go("pump.end_clearance_read|a" if "pump.end_clearance_read" in person.page else person.at)
    return person


def readings(shop, build=CODE):
    return list(shop.bench(build).build.readings.values())


def test_last_digits_are_kept_and_the_next_place_follows(mains, shop):
    mains.send("92")
    assert "Kept. 55.992 mm" in mains.said
    assert "Main 2 journal, front plane, 0°" in mains.said
    last = readings(shop)[-1]
    assert (last.dimension, last.place) == ("main.2.journal", "front/0")
    assert last.body.observation.value.si == pytest.approx(0.055992, abs=1e-12)
    assert last.entry.device.startswith("browser-")
    assert mains.at == "main.2.journal|front/90"


def test_without_script_the_whole_page_comes_back(mains):
    answer = mains.send("92", htmx=False)
    assert "<!doctype html>" in answer.text
    assert "Kept. 55.992 mm" in mains.said


def test_a_slip_is_asked_with_numbered_answers_and_nothing_is_kept_before(mains, shop):
    before = len(readings(shop))
    mains.send("559.92")
    assert "nothing is kept yet" in mains.said
    assert len(readings(shop)) == before
    assert hidden(mains.page, "asked_text") == "559.92"
    mains.send("1")
    assert "Kept. 55.992 mm" in mains.said
    assert len(readings(shop)) == before + 1


def test_the_same_typed_again_keeps_it(mains, shop):
    mains.send("57.20")
    assert 'name="asked"' in mains.page
    mains.send("57.20")
    while 'name="asked"' in mains.page and hidden(mains.page, "asked") == "slip":
        mains.send("57.20")
    assert readings(shop)[-1].body.observation.value.si == pytest.approx(0.0572)


def test_another_value_instead_of_an_answer_is_taken_at_the_same_place(mains, shop):
    mains.send("559.92")
    mains.send("55.991")
    last = readings(shop)[-1]
    assert (last.place, last.body.observation.value.typed) == ("front/0", "55.991")


def test_a_number_that_is_no_answer_is_refused_and_the_question_stays(mains):
    mains.send("559.92")
    mains.send("9", status=422)
    assert "none of the answers" in mains.said
    assert hidden(mains.page, "asked") == "slip"


def test_what_is_refused_stands_in_the_answer_to_be_typed_again(mains, shop):
    before = len(readings(shop))
    mains.send("5x", status=422)
    assert 'data-text="5x"' in mains.page
    assert len(readings(shop)) == before
    assert mains.at == JOURNAL


def test_the_same_form_sent_twice_counts_once(mains, shop):
    before, page, entry = len(readings(shop)), mains.page, uuid.uuid4().hex
    mains.send("92", entry_id=entry)
    mains.page = page
    mains.send("92", entry_id=entry)
    assert "Kept" in mains.said
    assert len(readings(shop)) == before + 1


def sent_again(mains, page, text, **fields):
    """The same line from the same page, as after an answer that was lost."""
    mains.page = page
    mains.send(text, **fields)


def standing(shop):
    return [each for each in readings(shop) if each.effective]


def test_taking_back_sent_twice_takes_one_entry_back(mains, shop):
    before, entry = len(standing(shop)), {"entry_id": uuid.uuid4().hex}
    mains.send("92")
    mains.send("91")
    page = mains.page
    mains.send("/", **entry)
    sent_again(mains, page, "/", **entry)
    assert "had reached the record already" in mains.said
    assert len(standing(shop)) == before + 1


def test_a_correction_sent_twice_corrects_once(mains, shop):
    mains.send("92")
    head, page, entry = shop.record.head().seq, mains.page, {"entry_id": uuid.uuid4().hex}
    mains.send("/91", **entry)
    sent_again(mains, page, "/91", **entry)
    assert "Kept" in mains.said
    assert shop.record.head().seq == head + 1
    assert readings(shop)[-1].body.observation.value.typed == "55.9[91] mm"


def test_a_move_sent_twice_moves_once(mains, shop):
    mains.send("92")
    page, entry = mains.page, {"entry_id": uuid.uuid4().hex, "move": "on"}
    mains.send("1", **entry)
    place = readings(shop)[-1].place
    sent_again(mains, page, "1", **entry)
    assert "had reached the record already" in mains.said
    assert readings(shop)[-1].place == place


def test_a_sitting_sent_twice_is_begun_once(client, shop):
    form = {"token": hidden(client.get(MAINS).text, "token"), "temperature": "21"}
    form["entry_id"] = uuid.uuid4().hex
    before = len(shop.bench(CODE).build.sittings)
    first, second = (client.post(f"{MAINS}/sitting", data=form) for _ in range(2))
    assert first.status_code == second.status_code == 303
    assert first.headers["location"] == second.headers["location"]
    assert len(shop.bench(CODE).build.sittings) == before + 1
    assert client.post(f"{MAINS}/sitting", data=form | {"temperature": "22"}).status_code == 409


def test_a_form_of_an_earlier_run_is_refused(mains, shop):
    before = len(readings(shop))
    mains.send("92", status=403, token="an old one")
    assert "earlier run of the bench" in mains.said
    assert len(readings(shop)) == before


def test_an_empty_line_does_nothing_at_an_unread_place_and_goes_on_at_a_read_one(mains):
    mains.send("")
    assert mains.at == JOURNAL
    assert "Type what the gauge says" in mains.said
    mains.send("92")
    mains.go(JOURNAL)
    mains.send("")
    assert mains.at == "main.2.journal|front/90"


def test_on_and_to_a_place_by_its_number(mains):
    mains.send("*")
    assert mains.at == "main.2.journal|front/90"
    mains.send("*1")
    assert mains.at == "main.1.housing_bore|front/0"
    mains.send("*999", status=422)
    assert "has places 1 to" in mains.said


def test_undo_takes_back_what_this_browser_entered_and_goes_there(mains, shop, asking):
    mains.send("92")
    other = AtBrowser(asking(shop), MAINS)
    other.go("main.5.journal|front/0")
    other.send("93")
    mains.send("/")
    assert "Taken back: 55.992 mm" in mains.said
    assert mains.at == JOURNAL
    assert [each.effective for each in readings(shop)[-2:]] == [False, True]


def test_nothing_to_take_back_is_said(mains):
    mains.send("/", status=422)
    assert "othing" in mains.said


def test_instead_corrects_the_last_reading_and_stays_where_one_was(mains, shop):
    mains.send("92")
    mains.send("/93")
    old, new = readings(shop)[-2:]
    assert (old.effective, new.effective) == (False, True)
    assert (new.dimension, new.place) == ("main.2.journal", "front/0")
    assert new.body.supersedes == old.entry.id
    assert mains.at == "main.2.journal|front/90"


def test_a_doubtful_correction_is_answered_at_the_place_that_it_corrects(mains, shop):
    mains.send("92")
    mains.send("/559.93")
    assert hidden(mains.page, "asked") == "slip"
    mains.send("1")
    old, new = readings(shop)[-2:]
    assert (old.effective, new.effective) == (False, True)
    assert (new.dimension, new.place, new.body.supersedes) == ("main.2.journal", "front/0", old.entry.id)
    assert new.body.observation.value.si == pytest.approx(0.055993)
    assert mains.at == "main.2.journal|front/90"


def test_not_measured_because_by_number_and_in_own_words(mains, shop):
    mains.send("**")
    assert "not measured, because" in words(mains.page)
    mains.send("2")
    assert shop.bench(CODE).build.not_measured_because("main.2.journal") == asked.REASONS[1]
    assert mains.at.startswith("main.3.journal|")
    mains.send(because="yes")
    mains.send("the crank is at the grinder")
    assert shop.bench(CODE).build.not_measured_because("main.3.journal") == "the crank is at the grinder"
    mains.send("**")
    mains.send("/")
    assert "Nothing was entered" in mains.said


def test_readings_move_one_place_on(mains, shop):
    mains.send("92")
    mains.send("93")
    mains.send("2", move="on")
    assert "Moved 2 readings one place on" in mains.said
    assert [each.place for each in readings(shop)[-2:]] == ["front/90", "rear/0"]
    assert mains.at == "main.2.journal|front/0", "the place that is empty now is the next to be read"
    mains.send("/")
    assert [each.place for each in readings(shop)[-2:]] == ["front/0", "front/90"]
    mains.send("9x", move="on", status=422)
    assert "no number of readings" in mains.said


def test_a_doubtful_text_is_typed_again_by_one_tap(mains, shop):
    before, at = len(readings(shop)), mains.at
    mains.send("5.5992")
    values = re.findall(r'name="answer" value="([^"]+)"', mains.page)
    assert values[-1] == "/"
    assert "no, type it again" in words(mains.page)
    mains.send(answer="/")
    assert "5.5992 was not entered" in mains.said
    assert (len(readings(shop)), mains.at) == (before, at)
    mains.send("**")
    assert "Why? " in mains.said
    mains.send(answer="/")
    assert "Nothing was entered" in mains.said


def test_a_repeat_that_differs_is_asked_after_it_is_kept(mains, shop):
    mains.send("92")
    mains.go(JOURNAL)
    mains.send("72")
    assert "Kept. 55.972 mm" in mains.said
    assert "does not agree with" in words(mains.page)
    values = re.findall(r'name="answer" value="([^"]+)"', mains.page)
    mains.send(answer="use instead")
    assert values == ["keep both", "use instead", "withdraw"]
    assert shop.bench(CODE).build.choices[-1].body.choice == "use instead"
    mains.send("/")
    assert "Taken back: the choice between readings" in mains.said


def test_an_agreeing_repeat_is_used_with_the_first_unasked(mains):
    mains.send("92")
    mains.go(JOURNAL)
    mains.send("92")
    assert 'name="asked"' not in mains.page


def test_a_question_about_a_reading_lapses_when_reading_goes_on(mains, shop):
    mains.send("92")
    mains.go(JOURNAL)
    mains.send("72")
    before = len(readings(shop))
    mains.send("91")
    assert len(readings(shop)) == before + 1


def test_five_alike_are_asked_once(client, shop):
    person = AtBrowser(client, MAINS)
    person.go("main.1.journal|front/0")
    for _ in range(5):
        person.send("55.9920")
    asked_now = 'name="asked"' in person.page
    assert asked_now == ("Was each of them taken by itself" in words(person.page))


def blade_place(client):
    """A place that is read by blades."""
    person = AtBrowser(client, f"/builds/{CODE}/measure/lash")
    person.go("valve.1.inlet.a.cam_gap|whole")
    assert 'id="blades" data-part class="first"' in person.page
    return person


def test_a_blade_by_its_key_and_by_the_keypad(client, shop):
    lash = blade_place(client)
    names = re.findall(r'name="blade" value="([^"+]+)"', lash.page)
    lash.send(blade=names[3], did="goes")
    assert f"Kept. {names[3]} goes" in lash.said
    lash.go("valve.1.inlet.a.cam_gap|whole")  # it was read to the end before: the page had gone on
    lash.send(f"{names[5].partition(':')[2]}-", blade_set=names[5].partition(":")[0])
    assert "does not go" in lash.said
    observed = [each.body.observation for each in readings(shop)[-2:]]
    assert [each.answer for each in observed] == ["goes", "does not go"]


def test_a_blade_that_contradicts_another_keeps_one_at_the_place(client):
    lash = blade_place(client)
    at, names = lash.at, re.findall(r'name="blade" value="([^"+]+)"', lash.page)
    lash.send(blade=names[5], did="goes")
    lash.go("valve.1.inlet.a.cam_gap|whole")  # it was read to the end before: the page had gone on
    lash.send(blade=names[3], did="does not go")
    assert "Kept, and it contradicts" in lash.said
    assert "Another blade here says otherwise" in lash.said
    assert lash.at == at
    lash.send("/")
    lash.send(blade=names[10], did="does not go")
    assert "contradicts" not in lash.said
    assert lash.at != at


def test_a_sign_alone_is_about_the_blade_proposed(client, shop):
    lash = blade_place(client)
    proposed = re.search(r'value="([^"]+)" checked><span class="number">', lash.page)
    if proposed is None:
        lash.send("+", status=422)
        assert "Which blade" in lash.said
    else:
        lash.send("+")
        assert "+".join(readings(shop)[-1].body.observation.blades) == proposed[1]


def test_an_unknown_blade_is_refused_with_those_there_are(client):
    lash = blade_place(client)
    lash.send("0.987+", status=422)
    assert "0.987" in lash.said


def test_a_value_in_another_unit_than_the_gauge_s(mains, shop):
    mains.send("2.2044", unit="in")
    last = readings(shop)[-1].body.observation.value
    assert (last.typed, last.unit) == ("2.2044", "in")


def test_a_sitting_goes_on_with_one_thing_changed(mains, shop):
    before = shop.bench(CODE).sitting(hidden(mains.page, "sitting"))
    fields = {name: hidden(mains.page, name) for name in ("token", "at", "sitting", "way", "from")}
    answer = mains.client.post(
        f"{MAINS}/sitting", data=fields | {"temperature": "23.5"}, headers={"hx-request": "true"}
    )
    assert answer.status_code == 200
    now = shop.bench(CODE).sitting(hidden(answer.text, "sitting"))
    assert now.code != before.code
    assert now.temperature == pytest.approx(296.65)
    assert (now.measured_by, now.instruments, now.settings) == (
        before.measured_by,
        before.instruments,
        before.settings,
    )
    assert hidden(answer.text, "at") == JOURNAL


def test_a_sitting_says_how_the_engine_lies_and_where_the_crank_stands(mains, shop):
    fields = {name: hidden(mains.page, name) for name in ("token", "at", "sitting")}
    lies = {"attitude": "sump up on the stand", "crank": "lifted"}
    answer = mains.client.post(f"{MAINS}/sitting", data=fields | lies, headers={"hx-request": "true"})
    now = shop.bench(CODE).sitting(hidden(answer.text, "sitting"))
    assert (now.attitude, now.crank) == ("sump up on the stand", "lifted")
    fields["sitting"] = now.code
    answer = mains.client.post(
        f"{MAINS}/sitting", data=fields | {"crank": ""}, headers={"hx-request": "true"}
    )
    now = shop.bench(CODE).sitting(hidden(answer.text, "sitting"))
    assert (now.attitude, now.crank) == ("sump up on the stand", None)


def test_the_eye_checks_of_a_station_stand_with_their_answers(looking, shown_shop):
    page = looking.get(MAINS).text
    for check in shown_shop.bench(CODE).sheet.stations["mains"].eye_checks:
        assert re.search(rf"do=eye&amp;check={re.escape(check.id)}[^>]*>[^<]+</a> <strong>yes", page)


def test_a_wrong_temperature_is_said_at_the_sitting(mains):
    fields = {name: hidden(mains.page, name) for name in ("token", "at", "sitting")}
    answer = mains.client.post(f"{MAINS}/sitting", data=fields | {"temperature": "warm"})
    assert answer.status_code == 422
    assert "warm" in words(answer.text)


def test_an_empty_shop_is_told_what_to_do_first_and_then_begins(asking, begun_shop):
    client = asking(begun_shop)
    station = next(iter(begun_shop.bench("first").sheet.stations))
    address = f"/builds/first/measure/{station}"
    assert "Nobody is entered in this shop yet" in client.get(address).text
    person = Person(code="builder", name="Builder")
    begun_shop.write([begun_shop.entry(person), begun_shop.entry(GAUGE)])
    page = client.get(address).text
    assert "Begin a sitting" in page
    fields = {"token": hidden(page, "token"), "measured_by": "builder", "temperature": "20"}
    answer = client.post(f"{address}/sitting", data=fields)
    assert answer.status_code == 303
    page = client.get(answer.headers["location"]).text
    assert "Builder measures" in page
    assert client.get("/builds/first/measure").status_code == 200


@pytest.mark.parametrize(
    "text, words",
    [
        ("92", "55.992 mm (2.20441 in)"),
        ("5", ""),
        ("", ""),
        ("*", "on, without a reading"),
        ("*3", "to place 3"),
        ("**", "not measured, because ..."),
        ("/", "take the last entry back"),
        ("/92", "instead of the last reading: 92"),
    ],
)
def test_what_a_line_would_be_is_said_before_enter(looking, text, words):
    found = looking.get(f"{MAINS}/echo", params={"at": JOURNAL, "text": text}).json()["words"]
    assert found.replace("2.2044 in", "2.20441 in") == words or (text == "5" and found)


def test_an_unknown_station_and_build_are_said(looking):
    answer = looking.get(f"/builds/{CODE}/measure/gearbox")
    assert answer.status_code == 404
    assert "no station" in answer.text
    assert looking.get("/builds/none/measure").status_code == 404
    assert looking.get("/builds/none/measure/mains").status_code == 404


def test_an_unknown_place_begins_at_the_first_unread(looking):
    page = looking.get(MAINS, params={"at": "nowhere|x"}).text
    assert hidden(page, "at")


def test_every_part_of_the_page_is_shown(client, shop, read, asking, begun_shop):
    person = AtBrowser(client, MAINS)
    person.go(JOURNAL)
    person.send("559.92")
    person.send("2")
    blade_place(client)
    client.get(f"/builds/{CODE}/measure")
    begun = asking(begun_shop)
    station = next(iter(begun_shop.bench("first").sheet.stations))
    address = f"/builds/first/measure/{station}"
    begun.get(address)
    gauges = [GAUGE.model_copy(update={"code": code}) for code in ("M1", "M2")]
    begun_shop.write([begun_shop.entry(each) for each in (Person(code="builder", name="Builder"), *gauges)])
    begin = {"token": hidden(begun.get(address).text, "token"), "measured_by": "builder"}
    assert begun.post(f"{address}/sitting", data=begin).status_code == 303
    assert "No gauge is chosen" in begun.get(address).text
    left = unread([asked, blades, parts, place, run, show, sitting, stations], read)
    assert not left
