"""Who may ask and who may write: own names only, own pages only, with the token of this run."""

import pytest

from fitwright.web.security import HEADERS
from tests.support.serving import form_of

FIT = "/builds/corrie-five/fits/main.4.running_clearance"
READINGS = "/builds/corrie-five/readings"


@pytest.fixture
def fields(client):
    return form_of(client.get(FIT).text) | {"value": "60.512", "place": "main.4.housing_bore|front/0"}


@pytest.mark.parametrize(
    "host", ["bench.example", "127.0.0.1.example", "localhost.example:80", "10.0.0.7:8620", ""]
)
def test_another_host_is_refused(client, host):
    answer = client.get("/", headers={"host": host})
    assert answer.status_code == 421
    assert "answers only to this machine's own name" in answer.text
    assert answer.headers["content-security-policy"] == HEADERS["content-security-policy"]


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost:8620", "[::1]:8620"])
def test_this_machine_by_any_of_its_names_is_answered(client, host):
    assert client.get("/", headers={"host": host}).status_code == 200


@pytest.mark.parametrize("origin", ["http://bench.example", "null", "http://127.0.0.1:1"])
def test_a_form_of_another_site_is_refused(client, shop, fields, origin):
    before = shop.record.head()
    answer = client.post(READINGS, data=fields, headers={"origin": origin})
    assert answer.status_code == 403
    assert "came from another site" in answer.text
    assert shop.record.head() == before


def test_a_form_of_this_bench_is_taken(client, fields):
    address = str(client.base_url).rstrip("/")
    assert client.post(READINGS, data=fields, headers={"origin": address}).status_code == 200


@pytest.mark.parametrize("token", ["", "x" * 32, "é"])
def test_a_form_without_the_token_of_this_run_stores_nothing_and_loses_nothing(client, shop, fields, token):
    before = shop.record.head()
    answer = client.post(READINGS, data=fields | {"token": token, "note": "third try"})
    assert answer.status_code == 403
    assert "earlier run of the bench, and nothing was taken" in answer.text
    assert 'value="60.512"' in answer.text
    assert 'value="third try"' in answer.text
    assert shop.record.head() == before
    again = form_of(answer.text)
    assert again["token"] == fields["token"]
    assert client.post(READINGS, data=fields | again).status_code == 200
