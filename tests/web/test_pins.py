"""PINs in the browser: set, changed, forgotten; asked for where somebody could become somebody else."""

import re

import pytest

from fitwright.records.kinds import Person, PinSet
from fitwright.web.pages.shop import people, pins
from tests.support.contexts import unread
from tests.support.page_forms import action_of, form_of

FIRST = {"pin_new": "4711", "pin_again": "4711"}
HASHES = re.compile(r"[0-9a-f]{32,}")


@pytest.fixture
def shop(empty_shop):
    """Two people, who measure and sign."""
    for code in ("first", "second"):
        empty_shop.write([empty_shop.entry(Person(code=code, name=code.title()))])
    return empty_shop


@pytest.fixture
def bench(asking, shop):
    return asking(shop)


def send(client, code, name, /, expect=200, **typed):
    address = code if code.startswith("/") else f"/shop/people/{code}"
    page = client.get(address).text
    answer = client.post(action_of(page, name), data=form_of(page, name) | typed)
    assert answer.status_code == expect, re.sub(r"<[^>]+>", " ", answer.text)
    return answer.text


def secrets_of(shop):
    """What nobody may see: PINs as typed, and what they are checked against."""
    found = [each.body for each in shop.record.entries() if each.kind == PinSet.kind]
    return {each["hardened"] for each in found} | {each["salt"] for each in found}


def test_the_first_is_set_on_the_page_of_the_person_which_says_why_and_when_it_is_asked_for(bench, shop):
    page = bench.get("/shop/people/first").text
    assert "none yet" in page
    assert "Releasing a hold point, granting a concession" in page
    kept = send(bench, "first", "pin", **FIRST)
    assert "The PIN of First is set" in kept
    assert "first" in shop.state.pins
    page = bench.get("/shop/people/first").text
    assert "Change the PIN" in page
    assert "The PIN is forgotten" not in page  # nobody else could vouch


def test_to_change_it_takes_the_one_until_now(bench, shop):
    send(bench, "first", "pin", **FIRST)
    other = {"pin_new": "0815", "pin_again": "0815"}
    assert "That is not the PIN of First" in send(bench, "first", "pin", expect=422, pin="1111", **other)
    assert "takes the PIN of First" in send(bench, "first", "pin", expect=422, **other)
    before = shop.state.pins["first"].entry.id
    send(bench, "first", "pin", pin="4711", **other)
    assert shop.state.pins["first"].entry.id != before


def test_forgotten_somebody_else_vouches_and_is_named(bench, shop):
    send(bench, "first", "pin", **FIRST)
    send(bench, "second", "pin", pin_new="2222", pin_again="2222")
    new = {"pin_new": "9999", "pin_again": "9999", "signer": "second"}
    assert "That is not the PIN of Second" in send(bench, "first", "forgotten", expect=422, pin="1", **new)
    send(bench, "first", "forgotten", pin="2222", **new)
    assert shop.state.pins["first"].body.vouched_by == "second"
    assert "vouched for by Second" in bench.get("/shop/people/first").text
    own = new | {"signer": "first"}
    assert "Somebody else has to vouch" in send(bench, "first", "forgotten", expect=422, pin="9999", **own)


UNCLEAR = (
    ({"pin_new": "4711", "pin_again": "4712"}, "Both PINs are not the same"),
    ({"pin_new": "678", "pin_again": "678"}, "4 to 12 digits"),
    ({"pin_new": "abcd", "pin_again": "abcd"}, "4 to 12 digits"),
    ({"pin_new": "", "pin_again": ""}, "The new PIN is missing"),
)


def test_what_is_no_pin_is_refused_and_never_shown_again(bench, shop):
    for typed, wrong in UNCLEAR:
        page = send(bench, "first", "pin", expect=422, **typed)
        assert wrong in page
        assert not typed["pin_new"] or typed["pin_new"] not in page
    assert shop.state.pins == {}


def test_sent_twice_it_counts_once(bench, shop):
    page = bench.get("/shop/people/first").text
    fields = form_of(page, "pin") | FIRST
    answers = [bench.post(action_of(page, "pin"), data=fields) for _ in range(2)]
    assert [each.status_code for each in answers] == [200, 200]
    assert sum(each.kind == PinSet.kind for each in shop.record.entries()) == 1


def test_who_has_a_pin_is_not_renamed_or_taken_out_without_one(bench, shop):
    send(bench, "first", "pin", **FIRST)
    assert "takes the PIN of First" in send(bench, "first", "change", expect=422, name="Somebody")
    send(bench, "first", "change", name="Somebody", signer="first", pin="4711")
    assert shop.state.people["first"].body.name == "Somebody"
    send(bench, "first", "change", name="Somebody", role="builder")  # a role takes none
    seq = shop.state.pins["first"].entry.seq
    back = f"/shop/entries/{seq}"
    assert "takes the PIN of Somebody" in send(bench, back, "take-back", expect=422, reason="x")
    send(bench, back, "take-back", reason="x", signer="first", pin="4711")
    assert "first" not in shop.state.pins


def test_no_page_shows_what_a_pin_is_checked_against(bench, shop):
    send(bench, "first", "pin", **FIRST)
    seq = shop.state.pins["first"].entry.seq
    secrets = secrets_of(shop)
    assert len(secrets) == 2
    pages = ["/shop", "/shop/people", "/shop/people/first", f"/shop/entries/{seq}", "/shop/record"]
    pages += [f"/shop/record/{seq}", "/shop/record?kind=PIN+set"]
    for address in pages:
        answer = bench.get(address)
        assert answer.status_code == 200, address
        assert not secrets & set(HASHES.findall(answer.text)), address
        assert "4711" not in answer.text, address


def test_a_lone_builder_is_told_that_none_is_asked_of_him(asking, empty_shop):
    empty_shop.write([empty_shop.entry(Person(code="first", name="First"))])
    page = asking(empty_shop).get("/shop/people/first").text
    assert "as long as nobody else is in the shop and no PIN was set, none is asked for" in page


def test_every_field_is_shown(bench, shop, read):
    send(bench, "first", "pin", **FIRST)
    send(bench, "second", "pin", pin_new="2222", pin_again="2222")
    bench.get("/shop/people")
    bench.get("/shop/people/first")
    assert not unread([people, pins], read)
