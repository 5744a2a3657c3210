"""Requests that no page of ours makes: numbers, letters and codings that nobody could have meant."""

from __future__ import annotations

import html
import re

import pytest

from fitwright.records.kinds import Person

CODE = "corrie-five"
BUILD = f"/builds/{CODE}"
ECHO = f"{BUILD}/measure/mains/echo"


def token_of(page):
    """The token of the run of the bench that made a page."""
    return re.search('name="token" value="([^"]+)"', page)[1]


@pytest.mark.parametrize("seq", ["0", "9223372036854775807", "9" * 30, "9" * 5000, "-1", "1e3", "\u00b2"])
@pytest.mark.parametrize("record", ["/shop/record", f"{BUILD}/record"])
def test_an_entry_that_no_record_can_hold_is_not_here(looking, record, seq):
    assert looking.get(f"{record}/{seq}").status_code == 404
    assert looking.post(f"{record}/{seq}", data={"reason": "x"}).status_code in (404, 403)


@pytest.mark.parametrize("asked", [{"text": "9" * 5000}, {"text": "55.9", "unit": "xx"}, {"text": "1/0"}])
def test_an_echo_of_no_amount_is_empty(looking, asked):
    assert looking.get(ECHO, params=asked).json() == {"words": ""}


def test_thousands_of_digits_are_refused_in_a_plain_sentence(looking, shown_shop):
    page = looking.get(f"{BUILD}/measure/mains").text
    answer = looking.post(f"{BUILD}/measure/mains", data={"token": token_of(page), "text": "9" * 5000})
    assert answer.status_code == 422
    assert "is too long for an amount" in html.unescape(answer.text)


def test_whoever_has_a_code_of_any_letters_is_remembered(asking, shop):
    name = "\u0416\u0435\u043a\u0430 \u20ac; the second"
    shop.write([shop.entry(Person(code=name, name=name))])
    client = asking(shop)
    page = client.get(f"{BUILD}/measure/mains").text
    sitting = {"measured_by": name, "typed_by": name, "token": token_of(page), "entry_id": "a" * 32}
    answer = client.post(f"{BUILD}/measure/mains/sitting", data=sitting)
    assert answer.status_code == 303
    assert shop.state.people[name]
    head = shop.record.head()
    assert head is not None
    page = client.get(f"/shop/record/{head.seq}").text
    assert f'<option value="{name}" selected>' in html.unescape(page)


@pytest.mark.parametrize(
    "charset", ["punycode", "undefined", "unicode_escape", "raw_unicode_escape", "utf-7"]
)
@pytest.mark.parametrize("address", [f"{BUILD}/measure/mains", f"{BUILD}/record/import", "/shop/people"])
def test_a_form_in_another_coding_is_no_form_of_ours(looking, shown_shop, address, charset):
    before = shown_shop.record.head()
    body = (
        b'--x\r\ncontent-disposition: form-data; name="te_xt-"\r\n\r\n\\ud800\r\n'
        b'--x\r\ncontent-disposition: form-data; name="file"; filename="\\ud800.csv"\r\n\r\npart\r\n--x--\r\n'
    )
    kind = f"multipart/form-data; boundary=x; charset={charset}"
    answer = looking.post(address, content=body, headers={"content-type": kind})
    assert 400 <= answer.status_code < 500
    assert shown_shop.record.head() == before


def test_half_a_character_in_a_file_is_shown_as_its_number(looking):
    token = token_of(looking.get(f"{BUILD}/measure/mains").text)
    content = looking.get(f"{BUILD}/record/build.json").text.replace(f'"{CODE}"', '"\\ud800"', 1)
    answer = looking.post("/shop/record/import", data={"token": token}, files={"file": ("b.json", content)})
    assert answer.status_code == 422
    assert "\\ud800" in answer.text


@pytest.mark.parametrize(
    "address, says", [("photos", "larger than the 26 MB"), ("readings", "larger than any reading")]
)
def test_what_is_too_large_is_told_what_may_be_sent_there(looking, address, says):
    kind = {"content-type": "application/x-www-form-urlencoded"}
    answer = looking.post(f"{BUILD}/{address}", content=b"x" * 26_100_000, headers=kind)
    assert answer.status_code == 413
    assert says in answer.text
