"""Record: newest first and narrowed; taken back and brought back; carried out and in; verified, backed up."""

import csv
import io
import json
import re
import zipfile
from html import unescape

import pytest

from fitwright.assess.results import State
from fitwright.formats.readings.columns import COLUMNS
from fitwright.formats.readings.exporting import rows_of
from fitwright.records.kinds import Note
from fitwright.records.search import Search
from fitwright.web.pages import record
from fitwright.web.pages.record import arriving, entry, exporting, filters, importing, keeping, lines, listing
from fitwright.web.uploads import Upload, Uploads
from fitwright.wiring import open_shop, restore_shop
from tests.support.contexts import unread
from tests.support.tampering import tamper

CODE = "corrie-five"
AT = f"/builds/{CODE}/record"
PLACE = {"dimension": "main.4.journal", "place": "front/0"}


def form_of(page):
    return dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', page))


def plain(text):
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", text))).strip()


def said(answer):
    return plain(re.search(r'<div id="outcome".*?</div>', answer.text, re.DOTALL)[0])


def shown(page):
    return [int(each) for each in re.findall(r'aria-label="Entry (\d+)"', page)]


def of_build(shop, **wanted):
    found = shop.record.search(Search(build=CODE, limit=10_000, **wanted))
    return [each.entry.seq for each in found]


# The list.


def test_the_newest_entries_come_first_page_by_page(looking, shown_shop):
    every, address = [], AT
    while address:
        page = looking.get(address).text
        every += shown(page)
        older = re.search(r'href="([^"]+)">Older entries', page)
        address = unescape(older[1]) if older else ""
    assert every == of_build(shown_shop)
    assert "To the newest" in page


def test_every_filter_narrows_and_stays_in_the_address(looking, shown_shop):
    for asked, wanted in (
        ({"kind": "state"}, of_build(shown_shop, kinds=("state",))),
        (
            {"person": "apprentice", "kind": "note"},
            of_build(shown_shop, person="apprentice", kinds=("note",)),
        ),
        ({"about": "main.4.journal front/0"}, of_build(shown_shop, names=("main.4.journal", "front/0"))),
        ({"sitting": "T-32"}, of_build(shown_shop, names=("T-32",))),
        ({"words": "dowels"}, of_build(shown_shop, words="dowels")),
        ({"after": 700}, of_build(shown_shop, after=700)),
    ):
        assert wanted, asked
        page = looking.get(AT, params=asked).text
        assert shown(page) == wanted[: filters.PAGE], asked
        assert "Show all" in page
        for name, value in asked.items():
            if name not in ("kind", "person", "sitting"):
                assert f'name="{name}" value="{value}"' in page
            else:
                assert f'<option value="{value}" selected>' in page


def test_a_filter_for_which_there_is_nothing_leads_back(looking):
    page = looking.get(AT, params={"words": "no such words"}).text
    assert "No entry is like that" in page
    assert f'href="{AT}">Show all' in page


@pytest.mark.parametrize(
    "asked", ["kind=nonsense", "before=x", "after=-1", "before=" + "9" * 40, "person=%00"]
)
def test_any_question_is_borne(looking, asked):
    assert looking.get(f"{AT}?{asked}").status_code == 200


def test_what_does_not_count_stays_visible_with_its_reason(client, shop):
    note = shop.entry(Note(text="tang marks"), build=CODE, person="builder")
    shop.write([note])
    shop.write([shop.entry(Note(text="no marks", supersedes=note.id, reason="looked again"), build=CODE)])
    page = client.get(f"{AT}?kind=note").text
    first = re.search(r'<li class="entry gone">.*?</li>', page, re.DOTALL)[0]
    assert f"superseded by entry {shop.position}: looked again" in plain(first)


def test_the_shop_s_record_holds_every_build(looking, shown_shop):
    page = looking.get("/shop/record").text
    assert shown(page)[0] == shown_shop.position
    assert "brackengill-eleven" in page
    everything = looking.get("/shop/record", params={"kind": "instrument"}).text
    assert shown(everything) == [
        each.entry.seq for each in shown_shop.record.search(Search(kinds=("instrument",), limit=50))
    ]


def test_an_empty_build_and_an_empty_shop_have_a_record(asking, begun_shop, empty_shop):
    begun = asking(begun_shop)
    assert shown(begun.get("/builds/first/record").text) == [1]
    assert begun.get("/builds/first/record/import").status_code == 200
    empty = asking(empty_shop)
    assert "No entry is like that" in empty.get("/shop/record").text
    assert empty.get("/shop/record/keeping?verify=yes").status_code == 200
    assert empty.get("/shop/record/1").status_code == 404
    assert empty.get("/builds/none/record").status_code == 404


# One entry.


def post(client, address, **fields):
    return client.post(address, data=form_of(client.get(address).text) | fields)


def first_reading(shop):
    return next(each for each in shop.bench(CODE).build.readings.values() if each.effective).entry


def test_an_entry_is_shown_in_full(looking, shown_shop):
    found = first_reading(shown_shop)
    page = plain(looking.get(f"{AT}/{found.seq}").text)
    assert found.id in page
    assert found.hash in page
    assert found.committed_at in page
    assert json.dumps(found.body["place"]) in page


def test_an_entry_is_taken_back_and_brought_back_with_reasons(client, shop):
    seq = first_reading(shop).seq
    answer = post(client, f"{AT}/{seq}", do="take-back", reason="wrong part", person="builder")
    assert said(answer).startswith("Kept as entry")
    assert f"taken back by entry {shop.position}: wrong part" in plain(answer.text)
    assert not shop.bench(CODE).build.ledger.effective(
        shop.record.search(Search(after=seq - 1, before=seq + 1))[0].entry.id
    )
    answer = post(client, f"{AT}/{seq}", do="bring-back", reason="it was right", person="builder")
    assert said(answer).startswith("Kept as entry")
    assert first_reading(shop).seq == seq
    naming = re.search(r"Entries that name this one.*?</section>", answer.text, re.DOTALL)[0]
    assert len(shown(naming)) == 1  # the first withdrawal; the second names that one


def test_sent_twice_it_is_taken_back_once(client, shop):
    address = f"{AT}/{first_reading(shop).seq}"
    form = form_of(client.get(address).text) | {"do": "take-back", "reason": "slip"}
    answers = [client.post(address, data=form) for _ in range(2)]
    assert [each.status_code for each in answers] == [200, 200]
    assert len({said(each) for each in answers}) == 1
    assert "taken back by entry" in plain(client.get(address).text)


def test_what_is_taken_back_already_is_refused(client, shop):
    address = f"{AT}/{first_reading(shop).seq}"
    form = form_of(client.get(address).text)
    post(client, address, do="take-back", reason="slip")
    answer = client.post(address, data=form | {"do": "take-back", "reason": "again"})
    assert answer.status_code == 422
    assert "withdrawn already" in said(answer)
    assert 'value="again"' in answer.text


@pytest.mark.parametrize(
    "fields, status, words",
    [
        ({"reason": ""}, 422, "No reason was given"),
        ({"reason": "x", "token": "old"}, 403, "earlier run of the bench"),
        ({"reason": "x", "person": "nobody"}, 422, "Nobody here is"),
        ({"reason": "a\u202eb"}, 422, "nobody can see"),
    ],
)
def test_a_refusal_says_why_and_nothing_is_kept(client, shop, fields, status, words):
    before = shop.record.head()
    answer = post(client, f"{AT}/{first_reading(shop).seq}", do="take-back", **fields)
    assert answer.status_code == status
    assert words in said(answer)
    assert shop.record.head() == before


def test_taking_back_a_start_warns_and_takes_the_build_off(client, shop):
    seq = shop.bench(CODE).build.started.entry.seq
    page = client.get(f"{AT}/{seq}").text
    assert "the build is on no page any more" in page
    assert post(client, f"/shop/record/{seq}", do="take-back", reason="a mistake").status_code == 200
    assert CODE not in shop.builds()
    assert client.get(AT).status_code == 404
    assert post(client, f"/shop/record/{seq}", do="bring-back", reason="no mistake").status_code == 200
    assert CODE in shop.builds()


def test_an_entry_of_another_build_is_not_here(looking, shown_shop):
    other = shown_shop.record.search(Search(build="brackengill-eleven", limit=1))[0].entry
    assert looking.get(f"{AT}/{other.seq}").status_code == 404
    assert looking.get(f"/shop/record/{other.seq}").status_code == 200
    assert looking.get(f"{AT}/999999999").status_code == 404


# Carried out.


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_readings_carried_out_are_known_when_they_come_back(client, shop, ending):
    answer = client.get(f"{AT}/readings.{ending}")
    name = f"corrie-five-readings-current.{ending}"
    assert answer.headers["content-disposition"] == f'attachment; filename="{name}"'
    before = shop.record.head()
    rows = sum(1 for _ in rows_of(shop.bench(CODE), State.CURRENT))
    checked = plain(send(client, name, answer.content, do="check").text)
    assert f"{rows} rows would be taken in" in checked
    assert f"{rows} rows raise questions" in checked  # recorded already, from elsewhere
    assert shop.record.head() == before


def test_csv_has_the_columns_and_semicolons_if_asked(looking):
    rows = list(csv.reader(io.StringIO(looking.get(f"{AT}/readings.csv").content.decode("utf-8-sig"))))
    assert tuple(rows[0]) == COLUMNS
    other = looking.get(f"{AT}/readings.csv?separated=semicolons&state=as-received").content.decode(
        "utf-8-sig"
    )
    assert other.splitlines()[0] == ";".join(COLUMNS)
    assert looking.get("/builds/none/record/readings.csv").status_code == 404


def test_a_build_is_carried_into_another_shop(asking, client, empty_shop):
    content = client.get(f"{AT}/build.json").content
    other = asking(empty_shop)
    address = "/shop/record/import"
    form = form_of(other.get(address).text)
    checked = other.post(address, data=form | {"do": "check"}, files={"file": ("b.json", content)})
    assert "entries would be taken in" in checked.text
    assert empty_shop.record.head() is None
    taken = other.post(address, data=form_of(checked.text) | {"do": "take"})
    assert f"{CODE}: " in said(taken)
    assert f'href="/builds/{CODE}"' in taken.text
    assert len(empty_shop.bench(CODE).build.readings) > 400
    again = other.post(address, data=form | {"do": "check"}, files={"file": ("b.json", content)})
    assert "0 entries would be taken in" in again.text


def test_a_set_up_has_no_readings(looking):
    document = looking.get(f"{AT}/build.json?readings=no").json()
    assert "reading" not in {each["kind"] for each in document["entries"]}
    assert looking.get("/builds/none/record/build.json").status_code == 404


@pytest.mark.parametrize(
    "content, words",
    [
        (b"", "No file was chosen"),
        (b"no json", "is no JSON"),
        (b"\xff\xfe\x00", "is not UTF-8"),
        (b"{}", "is no"),
    ],
)
def test_a_file_that_is_no_build_is_refused(asking, empty_shop, content, words):
    client = asking(empty_shop)
    form = form_of(client.get("/shop/record/import").text) | {"do": "take"}
    answer = client.post("/shop/record/import", data=form, files={"file": ("b.json", content)})
    assert answer.status_code == 422
    assert words in said(answer)
    assert empty_shop.record.head() is None


def test_a_build_is_not_taken_in_by_a_stale_page(asking, client, empty_shop):
    content = client.get(f"{AT}/build.json").content
    other = asking(empty_shop)
    fields = {"token": "old", "do": "take"}
    answer = other.post("/shop/record/import", data=fields, files={"file": ("b.json", content)})
    assert answer.status_code == 403
    assert empty_shop.record.head() is None


# Taken in.

GOOD = "dimension,place,value,unit,taken_at\nmain.4.journal,front/0,55.991,mm,2031-05-04T09:30\n"
BAD = "dimension,place,value\nmain.4.journal,front/0,lots\nno.such,front/0,55\n"
ASKED = "dimension,place,value,unit\nmain.4.journal,front/0,5.5991,mm\n"


def send(client, name, content, **fields):
    address = f"{AT}/import"
    form = form_of(client.get(address).text) | fields
    body = content.encode() if isinstance(content, str) else content
    return client.post(address, data=form, files={"file": (name, body)})


def test_a_table_is_checked_first_and_then_taken_in_without_sending_it_again(client, shop):
    before = shop.record.head()
    checked = send(client, "r.csv", GOOD, do="check", person="builder")
    assert "1 row would be taken in" in checked.text
    assert shop.record.head() == before
    taken = client.post(f"{AT}/import", data=form_of(checked.text) | {"do": "take", "person": "builder"})
    assert said(taken).startswith("1 reading taken in from r.csv.")
    last = shop.record.search(Search(build=CODE, kinds=("reading",), limit=1))[0].entry
    assert last.body["observation"]["value"]["typed"] == "55.991 mm"
    again = send(client, "r.csv", GOOD, do="take")
    assert "0 readings taken in from r.csv, 1 were here already" in said(again)


def test_everything_wrong_with_a_table_is_said_at_once(client, shop):
    before = shop.record.head()
    answer = send(client, "r.csv", BAD, do="take")
    found = plain(answer.text)
    assert (answer.status_code, "Nothing was taken in" in said(answer)) == (422, True)
    assert "2 rows cannot be taken in" in found
    assert re.search(r'<td class="number">2</td><td>value</td>', answer.text)
    assert re.search(r'<td class="number">3</td><td>dimension</td>', answer.text)
    assert shop.record.head() == before


def test_the_good_rows_are_taken_in_if_that_is_wanted(client, shop):
    table = GOOD + "no.such,front/0,55,mm,2031-05-04T09:31\n"
    checked = send(client, "r.csv", table, do="check")
    taken = client.post(f"{AT}/import", data=form_of(checked.text) | {"do": "take", "only_good": "yes"})
    assert "1 reading taken in from r.csv, 1 row left out" in said(taken)


@pytest.mark.parametrize("answer, taken", [("keep", 1), ("leave-out", 0)])
def test_a_question_is_answered_before(client, shop, answer, taken):
    checked = send(client, "r.csv", ASKED, do="take")
    assert "1 row raises a question" in plain(checked.text)
    done = client.post(f"{AT}/import", data=form_of(checked.text) | {"do": "take", "answer": answer})
    assert f"{taken} reading" in said(done)


@pytest.mark.parametrize(
    "name, content, words",
    [
        ("r.doc", GOOD, "is neither .csv nor .xlsx"),
        ("r.csv", "", "No file was chosen"),
        ("r.xlsx", "no workbook", "r.xlsx"),
        ("r.csv", "colour,value\nred,1\n", "no such column"),
    ],
)
def test_what_is_no_table_is_refused(client, shop, name, content, words):
    before = shop.record.head()
    answer = send(client, name, content, do="take")
    assert answer.status_code == 422
    assert words in plain(answer.text)
    assert shop.record.head() == before


def test_a_table_is_not_taken_in_by_a_stale_page(client, shop):
    before = shop.record.head()
    answer = send(client, "r.csv", GOOD, do="take", token="old")
    assert answer.status_code == 403
    assert "earlier run of the bench" in said(answer)
    assert shop.record.head() == before


def test_a_file_that_waited_too_long_is_asked_for_again(client):
    form = form_of(client.get(f"{AT}/import").text)
    answer = client.post(f"{AT}/import", data=form | {"do": "take", "upload": "0" * 64})
    assert "choose it again" in said(answer)
    uploads = Uploads(most_bytes=10)
    keys = [uploads.keep(Upload("a", bytes([number]) * 6)) for number in range(3)]
    assert [uploads.get(key) is not None for key in keys] == [False, False, True]


def test_the_name_of_a_file_is_only_a_name(client):
    answer = send(client, "../../etc/<b>.csv", GOOD, do="check")
    assert "&lt;b&gt;.csv" in answer.text
    assert "../" not in plain(answer.text)


# Looked after.


def test_verifying_says_what_the_command_says(client, shop):
    page = client.get("/shop/record/keeping").text
    assert "agrees with itself" not in page
    found = plain(client.get("/shop/record/keeping?verify=yes").text)
    assert " ".join(shop.verify().told) in found
    assert found.count("That says nothing about the engine.") == 1


def test_a_fault_is_found_and_named(asking, opened, folder, shown_shop):
    names = ("front/0",)
    seq = shown_shop.record.search(Search(build=CODE, kinds=("reading",), names=names))[0].entry.seq
    tamper(folder, f"UPDATE entries SET body = replace(body, 'front/0', 'front/9') WHERE seq = {seq}")
    page = asking(opened(folder)).get("/shop/record/keeping?verify=yes").text
    assert '<div class="said refused"' in page
    assert f"Entry {seq} (reading" in plain(page)


def test_a_backup_is_downloaded_and_can_be_restored(client, shop, tmp_path):
    answer = post(client, "/shop/record/keeping")
    assert answer.headers["content-type"] == "application/zip"
    assert "attachment" in answer.headers["content-disposition"]
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        archive.extractall(tmp_path / "backup")
    manifest = restore_shop(tmp_path / "backup", tmp_path / "restored")
    assert manifest.entries == shop.position
    restored = open_shop(tmp_path / "restored")
    try:
        assert list(restored.builds()) == list(shop.builds())
    finally:
        restored.close()


def test_no_backup_is_made_by_a_stale_page(client):
    answer = post(client, "/shop/record/keeping", token="old")
    assert answer.status_code == 403
    assert "ask for the backup again" in answer.text


def test_what_a_disk_refuses_is_said(client, shop, monkeypatch):
    def full(target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shop, "back_up", full)
    answer = post(client, "/shop/record/keeping")
    assert answer.status_code == 503
    assert "No space left on device" in answer.text


def test_every_field_is_shown(client, shop, read, asking, empty_shop):
    shop.write([shop.entry(Note(text="x", reason="y"), build=CODE)])
    for address in (AT, f"{AT}?about=main.4.journal", "/shop/record", "/shop/record/keeping?verify=yes"):
        assert client.get(address).status_code == 200
    post(client, f"{AT}/{first_reading(shop).seq}", do="take-back", reason="")
    send(client, "r.csv", BAD, do="check")
    send(client, "r.csv", ASKED, do="check")
    send(client, "r.csv", "", do="check")
    content = client.get(f"{AT}/build.json").content
    other = asking(empty_shop)
    form = form_of(other.get("/shop/record/import").text)
    other.post("/shop/record/import", data=form | {"do": "check"}, files={"file": ("b.json", content)})
    other.post("/shop/record/import", data=form | {"do": "take"}, files={"file": ("b.json", content)})
    assert record.ROUTES
    assert not unread([arriving, entry, exporting, filters, importing, keeping, lines, listing], read)


def test_what_is_kept_of_a_pin_is_on_no_page_and_found_by_no_search(client, shop):
    shop.write([shop.pin_entry("builder", "2468")])
    held = shop.state.pins["builder"]
    seq, secrets = held.entry.seq, (held.body.salt, held.body.hardened)
    for address in (
        f"/shop/record/{seq}",
        f"/shop/entries/{seq}",
        "/shop/record",
        "/shop/people/builder",
        "/shop",
    ):
        answer = client.get(address)
        assert answer.status_code == 200, address
        assert not any(secret in answer.text for secret in secrets), address
    for part in (*secrets, held.body.hardened[:4]):
        found = shop.record.search(Search(words=part))
        assert held.entry.id not in [each.entry.id for each in found]
    assert held.entry.id in [each.entry.id for each in shop.record.search(Search(kinds=("PIN set",)))]
