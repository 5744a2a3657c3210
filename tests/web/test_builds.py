"""Builds: one line each, what comes next, what is new since this browser looked; quick when cold."""

import re
from html import unescape

import pytest

from fitwright.assess.results import Verdict
from fitwright.bench.telling import NOUNS, counted
from fitwright.records.kinds import Note, State, Withdrawal
from fitwright.records.registry import KINDS
from fitwright.web import build_lines
from fitwright.web.app import create_app
from fitwright.web.pages import builds
from fitwright.web.seen import MOST, mark_of
from fitwright.wiring import open_shop
from tests.support.contexts import unread

CORRIE = "corrie-five"


def words_of(html):
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", html)))


def articles(page):
    return [words_of(each) for each in re.findall(r"<article.*?</article>", page, re.DOTALL)]


def test_an_empty_shop_says_how_to_start(asking, empty_shop):
    page = asking(empty_shop).get("/").text
    assert "No build yet" in page
    assert page.count('href="/builds/new"') == 2


def test_a_cold_page_waits_for_no_verdict(asking, folder, opened):
    shop = opened(folder)
    page = asking(shop).get("/").text
    assert page.count("being worked out") == 2
    assert shop._open == {}  # nothing was replayed, nothing judged


def test_a_line_fills_in_and_stands_in_the_next_page(client, shop):
    line = words_of(client.get(f"/builds/{CORRIE}/line").text)
    found = shop.assessment(CORRIE)
    assert f"{found.count(Verdict.WITHIN)} within" in line
    page = client.get("/").text
    assert page.count("being worked out") == 1
    assert f"/builds/{CORRIE}/line" not in page


def test_without_script_every_line_can_be_asked_for(client):
    assert "whole=yes" in client.get("/").text
    page = client.get("/?whole=yes").text
    assert "being worked out" not in page
    assert len(articles(page)) == 2


def test_an_unmeasured_build_begins_at_its_first_station(asking, begun_shop):
    line = asking(begun_shop).get("/builds/first/line").text
    station = next(iter(begun_shop.bench("first").sheet.stations.values()))
    places = sum(len(begun_shop.bench("first").sheet.dimensions[name].places) for name in station.order)
    assert f"/builds/first/measure/{station.id}" in line
    assert f"{station.title} {places + len(station.eye_checks)} places" in words_of(line)


def test_when_all_is_read_what_is_unproven_comes_next(client, shop):
    line = client.get(f"/builds/{CORRIE}/line").text
    unproven = [each for each in shop.assessment(CORRIE).verdicts.values() if each.verdict == "unproven"]
    assert f"Next {unproven[0].name}" in words_of(line)
    assert "likely to settle it" in line


def test_what_is_outside_is_named(shop, asking):
    bench = shop.bench(CORRIE)
    wanted = next(each for each in bench.build.readings.values() if each.dimension == "main.1.journal")
    value = {**wanted.entry.body["observation"]["value"], "typed": "55.90 mm", "si": 0.0559, "decimals": 2}
    for record in bench.build.readings_of(wanted.feature):
        body = {**record.entry.body, "observation": {**record.entry.body["observation"], "value": value}}
        body |= {"supersedes": record.entry.id, "reason": "test"}
        if record.effective:
            shop.write([shop.entry(type(record.body).model_validate_json(json_of(body)), build=CORRIE)])
    line = asking(shop).get(f"/builds/{CORRIE}/line").text
    assert "Outside: Main 1" in words_of(line)


def json_of(body):
    import json

    return json.dumps(body)


def test_what_was_written_since_this_browser_looked_is_counted(client, shop):
    assert "since you looked" not in client.get("/").text
    client.get(f"/builds/{CORRIE}")
    assert "since you looked" not in client.get("/").text
    seq = shop.position
    note = shop.entry(Note(text="tang marks"), build=CORRIE)
    change = State(code="r9", change="rework", part="block", dimensions=(), words="lapped")
    shop.write([note, shop.entry(change, build=CORRIE), shop.entry(Withdrawal(entry=note.id), build=CORRIE)])
    page = client.get("/").text
    card = next(each for each in articles(page) if "Corrie" in each)
    assert "1 rework, 1 withdrawal, 1 note since you looked" in card
    assert f'href="/builds/{CORRIE}/record?after={seq}"' in page
    client.get(f"/builds/{CORRIE}")
    assert "since you looked" not in client.get("/").text


def test_a_line_that_fills_in_is_no_look(client, shop):
    client.get(f"/builds/{CORRIE}/line")
    assert "seen" not in client.cookies


def test_the_cookie_forgets_the_build_seen_longest_ago(looking):
    many = "_".join(f"{number:08x}.{number}" for number in range(MOST))
    answer = looking.get(f"/builds/{CORRIE}", headers={"cookie": f"seen={many}"})
    pairs = re.search(r"\bseen=([^;]*)", answer.headers["set-cookie"])[1].split("_")
    assert pairs[0] == "00000001.1"
    assert pairs[-1].startswith(mark_of(CORRIE))
    assert len(pairs) == MOST
    assert len("_".join(pairs)) < 4000


@pytest.mark.parametrize("cookie", ["", "nonsense", "zzzzzzzz.1", f"{mark_of(CORRIE)}.999999999999"])
def test_any_cookie_is_borne(client, cookie):
    client.cookies.set("seen", cookie)
    assert client.get("/").status_code == 200


def test_the_build_written_to_last_stands_first(client, shop):
    shop.write([shop.entry(Note(text="here"), build=CORRIE)])
    assert articles(client.get("/").text)[0].strip().startswith("Corrie")
    shop.write([shop.entry(Note(text="there"), build="brackengill-eleven")])
    assert articles(client.get("/").text)[0].strip().startswith("Brackengill")


def test_entries_are_called_by_their_nouns():
    assert counted({}) == ""
    assert counted({"note": 1}) == "1 note"
    assert counted({"question answered": 1}) == "1 entry"
    known = set(KINDS) | {"rework", "repair", "replacement"}
    assert set(NOUNS) <= known


def test_a_build_that_is_not_there_has_no_line(looking):
    assert looking.get("/builds/nothing/line").status_code == 404


def test_every_field_is_shown(client, shop, read, asking, folder):
    client.get(f"/builds/{CORRIE}")
    shop.write([shop.entry(Note(text="x"), build=CORRIE)])
    assert client.get("/").status_code == 200
    cold = open_shop(folder)
    try:
        assert asking(cold).get("/").status_code == 200
    finally:
        cold.close()
    test_what_is_outside_is_named(shop, asking)
    assert not unread([build_lines, builds], read)


def test_an_application_has_its_own_shop_in_the_cookie(begun_shop, asking):
    client = asking(begun_shop)
    assert create_app(begun_shop).state.hands.shop is begun_shop
    client.get("/builds/first")
    assert client.cookies["seen"] == f"{mark_of('first')}.{begun_shop.position}"
