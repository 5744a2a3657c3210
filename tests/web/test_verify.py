"""The page Verify: a dossier held against its record; what does not agree is named; no file is a danger."""

import re
import threading
import zlib
from concurrent.futures import ThreadPoolExecutor

import httpx
import pytest

from fitwright.records.kinds import Person
from fitwright.web.app import create_app
from fitwright.web.pages import verify
from fitwright.wiring import open_shop
from tests.support.contexts import unread
from tests.support.serving import serving

AGREES = "The document agrees with the record it was made from."
NOTHING = "That says nothing about the engine."


@pytest.fixture
def bench(asking, begun_shop):
    return asking(begun_shop)


@pytest.fixture
def pdf(begun_shop):
    begun_shop.write([begun_shop.entry(Person(code="builder", name="Builder"))])
    return begun_shop.dossier("first").pdf


def verified(client, content, name="dossier.pdf", token=None):
    page = client.get("/verify").text
    fields = {"token": token or re.search(r'name="token" value="([^"]*)"', page)[1]}
    return client.post("/verify", data=fields, files={"file": (name, content, "application/pdf")})


def test_a_dossier_of_this_shop_agrees_and_nothing_is_said_of_the_engine(bench, pdf):
    answer = verified(bench, pdf)
    assert answer.status_code == 200
    assert AGREES in answer.text
    assert NOTHING in answer.text
    assert "Its head is part of this shop" in answer.text


def test_one_of_another_shop_agrees_as_well_and_it_is_said_what_it_cannot_show(asking, pdf, tmp_path):
    other = open_shop(tmp_path / "other")
    try:
        answer = verified(asking(other), pdf)
    finally:
        other.close()
    assert "dossier.pdf: build first" in answer.text
    assert AGREES in answer.text
    assert "It is of another shop" in answer.text


def changed(pdf):
    """The same file with one digit of its data otherwise, wherever the data lie in it."""
    for found in re.finditer(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL):
        try:
            inside = zlib.decompress(found[1])
        except zlib.error:
            inside = found[1]
        if b'"build started"' not in inside and b'"build_started"' not in inside:
            continue
        other = inside.replace(b"First job", b"Other job", 1)
        assert other != inside
        packed = zlib.compress(other) if inside != found[1] else other
        packed = packed.ljust(len(found[1]), b"\0")
        if len(packed) == len(found[1]):
            return pdf[: found.start(1)] + packed + pdf[found.end(1) :]
    raise AssertionError("the data were not found in the file")


def test_the_entry_that_does_not_agree_is_named(bench, pdf):
    answer = verified(bench, changed(pdf))
    assert AGREES not in answer.text
    assert "does not agree" in answer.text
    assert re.search(r'<th scope="row">entry \d+', answer.text)


@pytest.mark.parametrize(
    "content, wrong",
    [
        (b"", "No file was sent"),
        (b"hello", "The file dossier.pdf is no PDF"),
        (b"%PDF-1.7 and nothing else", "dossier.pdf"),
        (b"\0" * 2000 + b"%PDF-", "is no PDF"),
    ],
)
def test_what_is_no_dossier_is_said_in_a_sentence(bench, content, wrong):
    answer = verified(bench, content)
    assert answer.status_code == 422
    assert wrong in answer.text
    assert AGREES not in answer.text


def test_a_name_is_only_a_name(bench):
    answer = verified(bench, b"hello", name="../../<script>alert(1)</script>.pdf")
    assert "<script>alert" not in answer.text
    assert "../" not in answer.text


def test_a_page_of_an_earlier_run_takes_nothing(bench, pdf):
    assert verified(bench, pdf, token="old").status_code == 403


def test_more_than_may_be_sent_is_refused(bench):
    assert verified(bench, b"%PDF-" + b"0" * 65_000_000).status_code == 413


def test_files_are_looked_at_one_at_a_time(begun_shop, monkeypatch):
    """A file that takes long keeps other files waiting, and nothing else."""
    begun, go_on, at_once = threading.Event(), threading.Event(), []

    def slow(_hands, _form):
        at_once.append(1)
        begun.set()
        assert go_on.wait(20)
        seen = len(at_once)
        at_once.pop()
        return verify.Verified("refused", f"{seen} at once", (), ()), 422

    monkeypatch.setattr(verify, "_verified", slow)
    with serving(create_app(begun_shop)) as address, ThreadPoolExecutor(3) as people:
        client = httpx.Client(base_url=address, timeout=30)
        sent = [people.submit(verified, client, b"%PDF-", token="t") for _ in range(3)]
        assert begun.wait(20)
        assert client.get("/").status_code == 200
        go_on.set()
        assert ["1 at once" in each.result().text for each in sent] == [True] * 3
        client.close()


def test_it_is_reached_from_builds_and_from_the_dossier(bench):
    assert 'href="/verify"' in bench.get("/").text
    assert 'href="/verify"' in bench.get("/builds/first/dossier").text


def test_every_field_is_shown(bench, pdf, read):
    verified(bench, changed(pdf))
    assert not unread([verify], read)
