"""An outside fit under a concession says so wherever it is shown, and stays outside."""

import re

import pytest

from fitwright.assess.results import Verdict
from fitwright.drawing.accepted import accepted_in, accepted_sentence, accepted_words
from fitwright.records.kinds import Concession, Part, Typed
from tests.support.assembly_shop import CODE, TEXT, Workshop

UNDER = "under concession C-1, until the first strip-down"
ADDRESSES = {
    "fits": f"/builds/{CODE}/fits?only=outside",
    "fit": f"/builds/{CODE}/fits/clearance",
    "side by side": f"/builds/{CODE}/fits?state=both",
    "measure": f"/builds/{CODE}/measure/bench?at=journal|front",
    "builds": "/?whole=yes",
    "put right": f"/builds/{CODE}/put-right",
}
CONCESSION = Concession(
    code="C-1",
    subject="clearance",
    parts={"crank": "crank"},
    highest=Typed(typed="0.250", unit="mm", decimals=3, si=0.25e-3),
    granted_by="builder",
    because="short duty",
    until="the first strip-down",
)


@pytest.fixture
def accepted(opened, tmp_path):
    """A shop in which the clearance is outside, and accepted so."""
    text = TEXT
    for name in ("housing", "fitted", "journal"):
        text = text.replace(f"[dimensions.{name}]", f'[dimensions.{name}]\nstation = "bench"')
    text = text.replace("[fits.clearance]", '[fits.clearance]\nstation = "bench"')
    workshop = Workshop.open(opened(tmp_path / "accepted"), text)
    workshop.read_outside()
    workshop.says(CONCESSION)
    return workshop.shop


def test_it_says_so_on_every_page_and_stays_outside(asking, accepted):
    client = asking(accepted)
    for name, address in ADDRESSES.items():
        page = client.get(address).text
        assert UNDER in page.replace("Under concession", "under concession"), name
    assert accepted.assessor(CODE).verdict("clearance").verdict is Verdict.OUTSIDE
    fit = client.get(ADDRESSES["fit"]).text
    assert "outside: above the upper limit" in fit
    assert "Put it right" in fit
    assert re.search(r'<div class="accepted">under concession', fit)
    assert "1 of those outside stands under a concession or permit" in client.get(ADDRESSES["fits"]).text


def test_the_engine_counts_it_at_its_station(asking, accepted):
    assert "1 outside, 1 of them accepted" in asking(accepted).get(f"/builds/{CODE}").text


def test_as_received_nothing_is_accepted(asking, accepted):
    page = asking(accepted).get(f"{ADDRESSES['fit']}?state=as-received").text
    assert "outside: above the upper limit" in page
    assert "under concession" not in page


def test_the_line_of_a_fit_is_drawn_anew_when_a_concession_ends(asking, accepted):
    client = asking(accepted)
    before, position = client.get(ADDRESSES["fits"]).text, accepted.position
    accepted.write([accepted.entry(Part(code="crank-2", title="Crank", position="crank"), build=CODE)])
    after = client.get(f"{ADDRESSES['fits']}&after={position}").text
    assert UNDER in before
    assert UNDER not in after


def test_a_line_that_stays_as_it_was_is_not_drawn_anew(asking, accepted):
    client = asking(accepted)
    client.get(ADDRESSES["fits"])
    again = client.get(f"{ADDRESSES['fits']}&after={accepted.position}").text
    assert "data-same" in again


def test_in_words(accepted):
    assessor, found = accepted.assessor(CODE), accepted.assessment(CODE)
    assert accepted_words(assessor, found.verdicts["clearance"]) == UNDER
    assert accepted_words(assessor, found.verdicts["deck"]) == ""
    assert accepted_in(assessor, found.verdicts.values()) == {"clearance": UNDER}
    assert accepted_sentence(assessor, found) == "1 of those outside stands under a concession or permit."
