"""A record in trouble is said on every page; what nobody could have meant is refused in words."""

from __future__ import annotations

import html
import shutil

import pytest

from fitwright.records.kinds import BuildStarted, Note
from fitwright.store.record import DATABASE
from fitwright.wiring import back_up_shop
from tests.support.serving import form_of
from tests.support.tampering import tamper

CODE = "corrie-five"
FIT = f"/builds/{CODE}/fits/main.4.running_clearance"
READINGS = f"/builds/{CODE}/readings"
TYPED = {"place": "main.4.housing_bore|front/0", "instrument": "B1", "value": "60.512"}
PAGES = ["/", f"/builds/{CODE}/fits", f"/builds/{CODE}/fits?state=both", FIT]


@pytest.fixture
def fields(looking):
    """A form for what is refused anyway, so that one shop does for all of it."""
    return form_of(looking.get(FIT).text) | TYPED


def test_an_old_copy_put_back_is_said_on_every_page(shop, folder, opened, asking, tmp_path):
    back_up_shop(folder, tmp_path / "old")
    shop.write([shop.entry(Note(text="later"), build=CODE)])
    shop.close()
    for left in folder.glob(f"{DATABASE}*"):
        left.unlink()
    shutil.copy(tmp_path / "old" / DATABASE, folder / DATABASE)
    client = asking(opened(folder))
    for page in PAGES:
        text = html.unescape(client.get(page).text)
        assert "entries are missing (an old copy put back" in text, page
    form = form_of(client.get(FIT).text) | TYPED
    answer = client.post(READINGS, data=form)
    assert answer.status_code == 422
    assert "read but not written" in html.unescape(answer.text)


def test_a_damaged_entry_is_named_and_is_no_fault_of_the_bench(folder, opened, asking):
    shop = opened(folder)
    client = asking(shop)
    tamper(folder, "UPDATE entries SET body = '[]' WHERE seq = 60")
    shop._seen = 0  # as after a start: all entries are read again
    answer = client.get("/")
    assert answer.status_code == 503
    assert "entry 60" in answer.text
    assert "fitwright verify" in answer.text
    assert "mistake of its own" not in answer.text


def test_a_build_that_another_program_has_started_is_there_at_once(client, shop, opened, folder):
    client.get("/")
    other = opened(folder)
    sheet = other.record.sheet_text(other.bench(CODE).sheet.digest)
    other.start_build("next", sheet, BuildStarted(code="next", title="Next one", sheet=""))
    assert client.get("/builds/next/fits").status_code == 200


@pytest.mark.parametrize("origin", ["http://[", "http://[::1", "[]"])
def test_an_origin_that_is_no_address_is_another_site(looking, fields, origin):
    assert looking.post(READINGS, data=fields, headers={"origin": origin}).status_code == 403


@pytest.mark.parametrize("host", ["localhost:8620@bench.example", "[::1", "localhost:x", "[::1]x"])
def test_a_host_that_is_no_name_is_refused(looking, host):
    assert looking.get("/", headers={"host": host}).status_code == 421


def test_a_host_may_be_written_in_capitals(looking):
    assert looking.get("/", headers={"host": "LOCALHOST:8620"}).status_code == 200


@pytest.mark.parametrize(
    "typed, says",
    [
        ({"person": "nobody"}, 'Nobody here is "nobody"'),
        ({"person": "<img src=x onerror=alert(1)>"}, "Nobody here is"),
        ({"note": "a\x00b"}, "nobody can see (U+0000)"),
        ({"note": "\u202e21.5"}, "nobody can see (U+202E)"),
        ({"note": "x" * 20_000}, "at most 4000 characters"),
        ({"entry_id": "A" * 32}, "is no entry id"),
        ({"value": "1e13 m"}, "more than anything measures"),
        ({"value": "55.45²"}, "unknown unit"),
    ],
)
def test_what_nobody_could_have_meant_is_refused_in_one_sentence(looking, shown_shop, fields, typed, says):
    before = shown_shop.record.head()
    answer = looking.post(READINGS, data=fields | typed)
    assert answer.status_code == 422
    assert says in html.unescape(answer.text)
    assert "validation error" not in answer.text
    assert "<img src=x" not in answer.text
    assert shown_shop.record.head() == before


@pytest.mark.parametrize("kind", ["multipart/form-data", "multipart/form-data; boundary=x"])
def test_what_is_no_form_is_said_so(looking, kind):
    answer = looking.post(READINGS, content=b'{"a": 1}', headers={"content-type": kind})
    assert answer.status_code == 400
    assert "is no form of this bench; nothing was taken" in answer.text
