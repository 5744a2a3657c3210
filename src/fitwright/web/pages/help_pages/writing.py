"""Markdown to HTML that is safe to show: no HTML of its own, no link that leads out of the help."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

_PAGE = re.compile(r"(?P<name>[a-z-]+)\.md(?P<anchor>#[a-z-]+)?")


@cache
def _writer() -> MarkdownIt:
    """Paragraphs, lists, tables, code; HTML stays text."""
    return MarkdownIt("commonmark", {"html": False}).enable("table")


def html_of(text: str) -> Markup:
    r"""A page of help as HTML; a link to another page of help leads there, any other becomes its words.

    >>> html_of("See [fits](fits.md) or [this](https://example.org).")
    Markup('<p>See <a href="/help/fits">fits</a> or this.</p>\n')
    """
    tokens = _writer().parse(text)
    for before, token in zip([None, *tokens], tokens, strict=False):
        if token.type == "inline":
            token.children = list(_linked(token.children or ()))
        if before is not None and before.type == "heading_open" and token.type == "inline":
            before.attrSet("id", anchor_of(token.content))
    # Made by the writer with HTML switched off: every word of a page is escaped in it.
    return Markup(_writer().renderer.render(tokens, _writer().options, {}))  # noqa: S704


def anchor_of(title: str) -> str:
    """What a heading is jumped to by.

    >>> anchor_of("When the bench answers otherwise")
    'when-the-bench-answers-otherwise'
    """
    return re.sub(r"[^a-z0-9]+", "-", title.lower()).strip("-")


def links_of(text: str) -> tuple[str, ...]:
    """Everything that a page links to, as it is written."""
    inline = (child for token in _writer().parse(text) for child in token.children or ())
    return tuple(str(each.attrGet("href")) for each in inline if each.type == "link_open")


def _linked(tokens: Sequence[Token]) -> Iterator[Token]:
    shown: list[bool] = []
    for token in tokens:
        if token.type == "link_open":
            found = _PAGE.fullmatch(str(token.attrGet("href")))
            shown.append(found is not None)
            if found is not None:
                token.attrSet("href", f"/help/{found['name']}{found['anchor'] or ''}")
                yield token
        elif token.type == "link_close":
            if shown.pop():
                yield token
        elif token.type != "image":
            yield token
