"""The forms of a build's pages, filled in and sent as a browser does it."""

from __future__ import annotations

import html
import re
from dataclasses import dataclass

import httpx


@dataclass(frozen=True)
class Answered:
    """What came of a form: the status, the page, and what it says where the form stood."""

    status: int
    text: str

    @property
    def said(self) -> str:
        """The words in the place of the form."""
        found = re.search(r'<div id="entry".*?(?=<div id="answer")', self.text, re.DOTALL)
        words = re.sub(r"<[^>]+>", " ", found[0] if found else self.text)
        return html.unescape(re.sub(r"\s+", " ", words)).strip()


def form_on(client: httpx.Client, address: str, **asked: str) -> tuple[str, dict[str, str], str]:
    """A form that an address opens: its HTML, its hidden fields, where it is sent."""
    page = client.get(address, params=asked).text
    found = re.search(r'<form class="record".*?</form>', page, re.DOTALL)
    assert found, f"no form at {address} {asked}"
    fields = re.findall(r'<input type="hidden" name="([\w:.|-]+)" value="([^"]*)"', found[0])
    action = re.search(r'action="([^"]*)"', found[0])
    assert action
    return found[0], {name: html.unescape(value) for name, value in fields}, html.unescape(action[1])


def sends(client: httpx.Client, address: str, do: str, typed: dict[str, str], **asked: str) -> Answered:
    """Opens a form, fills it in and sends it."""
    _, hidden, action = form_on(client, address, do=do, **asked)
    answer = client.post(action, data=hidden | typed)
    return Answered(answer.status_code, answer.text)
