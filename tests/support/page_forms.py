"""The forms of a page as a browser would send them: every field with the value that stands in it."""

from __future__ import annotations

from html.parser import HTMLParser


class _Forms(HTMLParser):
    """Collects the fields of each form that carries a hidden field named `form`."""

    def __init__(self) -> None:
        super().__init__()
        self.forms: dict[str, dict[str, str]] = {}
        self.actions: dict[str, str] = {}
        self._action = ""
        self._open: dict[str, str] | None = None
        self._select, self._area = "", ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag == "form":
            self._open, self._action = {}, given.get("action", "")
        if self._open is None:
            return
        name = given.get("name", "")
        if tag == "input" and name and (given.get("type") != "checkbox" or "checked" in given):
            self._open[name] = given.get("value", "")
        elif tag == "select":
            self._select = name
        elif tag == "option" and self._select and ("selected" in given or self._select not in self._open):
            self._open[self._select] = given.get("value", "")
        elif tag == "textarea":
            self._area = name
            self._open[name] = ""

    def handle_endtag(self, tag: str) -> None:
        if tag == "select":
            self._select = ""
        elif tag == "textarea":
            self._area = ""
        elif tag == "form" and self._open is not None:
            self.forms[self._open.get("form", "")] = self._open
            self.actions[self._open.get("form", "")] = self._action
            self._open = None

    def handle_data(self, data: str) -> None:
        if self._area and self._open is not None:
            self._open[self._area] += data


def form_of(html: str, name: str) -> dict[str, str]:
    """The fields of the form with a name, with what stands in them."""
    parser = _Forms()
    parser.feed(html)
    assert name in parser.forms, f"no form {name}; there are {', '.join(parser.forms)}"
    return parser.forms[name]


def action_of(html: str, name: str) -> str:
    """Where the form with a name is sent."""
    parser = _Forms()
    parser.feed(html)
    return parser.actions[name]
