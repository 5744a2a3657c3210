"""Line and column of every key and value in a TOML text.

The parser here tolerates what it does not understand; it is asked only where something in the
values has been found wrong, so a sheet without problems is never walked.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import tree_sitter_toml
from tree_sitter import Language, Node, Parser

from fitwright.model.problem import Path

Position = tuple[int, int]


class Positions:
    """Where each path of keys stands in a text; lines and columns count from 1."""

    def __init__(self, text: str) -> None:
        """Walk the text once."""
        self._lines = text.encode().split(b"\n")
        self._keys: dict[Path, Position] = {}
        self._values: dict[Path, Position] = {}
        self._last_index: dict[Path, int] = {}
        root = Parser(Language(tree_sitter_toml.language())).parse(text.encode()).root_node
        for node in root.named_children:
            self._read_top(node)

    def of_key(self, path: Path) -> Position:
        """Where the key stands, or the nearest table around it that is in the text."""
        return self._nearest(self._keys, path)

    def of_value(self, path: Path) -> Position:
        """Where the value stands, or the key of the nearest table around it."""
        return self._values.get(path) or self._nearest(self._keys, path)

    def _nearest(self, known: dict[Path, Position], path: Path) -> Position:
        while path:
            if path in known:
                return known[path]
            path = path[:-1]
        return (1, 1)

    def _read_top(self, node: Node) -> None:
        if node.type == "pair":
            self._read_pair(node, ())
        elif node.type in {"table", "table_array_element"} and node.named_children:
            path = self._open_table(node)
            for child in node.named_children[1:]:
                if child.type == "pair":
                    self._read_pair(child, path)

    def _open_table(self, node: Node) -> Path:
        """The path that a header opens; `[[...]]` opens the next element of its array."""
        keys = list(_keys_of(node.named_children[0]))
        path: Path = ()
        for number, (key, key_node) in enumerate(keys):
            path = (*path, key)
            self._keys.setdefault(path, self._position(key_node))
            is_element = node.type == "table_array_element" and number == len(keys) - 1
            if is_element:
                self._last_index[path] = self._last_index.get(path, -1) + 1
            if path in self._last_index:
                path = (*path, self._last_index[path])
                self._keys.setdefault(path, self._position(key_node))
        return path

    def _read_pair(self, node: Node, path: Path) -> None:
        if len(node.named_children) < 2:
            return
        for key, key_node in _keys_of(node.named_children[0]):
            path = (*path, key)
            self._keys.setdefault(path, self._position(key_node))
        self._read_value(node.named_children[1], path)

    def _read_value(self, node: Node, path: Path) -> None:
        self._values.setdefault(path, self._position(node))
        if node.type == "inline_table":
            for child in node.named_children:
                if child.type == "pair":
                    self._read_pair(child, path)
        elif node.type == "array":
            items = (child for child in node.named_children if child.type != "comment")
            for index, child in enumerate(items):
                self._keys.setdefault((*path, index), self._position(child))
                self._read_value(child, (*path, index))

    def _position(self, node: Node) -> Position:
        row, column = node.start_point
        before = self._lines[row][:column] if row < len(self._lines) else b""
        return row + 1, len(before.decode(errors="replace")) + 1


def _keys_of(node: Node) -> Iterator[tuple[str, Node]]:
    if node.type == "dotted_key":
        for child in node.named_children:
            yield from _keys_of(child)
    else:
        yield _plain(node), node


def _plain(node: Node) -> str:
    text = (node.text or b"").decode(errors="replace")
    if node.type != "quoted_key":
        return text
    try:
        value = tomllib.loads(f"key = {text}")["key"]
    except tomllib.TOMLDecodeError:
        return text
    return value if isinstance(value, str) else text
