"""Which fits a search finds: by id, title, station, parts and dimensions, in British or American words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from fitwright.assess.evidence import members_of
from fitwright.assess.subjects import Subject
from fitwright.data.trade_words import Alternative, Phrase, wanted_in, words_of
from fitwright.model.sheet import Sheet

Texts = tuple[str, ...]
"""What one subject is looked for in: words with one blank before, between and after them."""


@dataclass(slots=True)
class Searches:
    """Searches through sheets; what is looked through is put together once for each sheet."""

    _texts: dict[str, Mapping[str, Texts]] = field(default_factory=dict)

    def found(self, query: str, sheet: Sheet, subjects: Mapping[str, Subject]) -> frozenset[str]:
        """The ids of the subjects that a query finds; of all of them where it asks for nothing."""
        wanted = tuple(wanted_in(query))
        if not wanted:
            return frozenset(subjects)
        texts = self._texts.get(sheet.digest)
        if texts is None:
            texts = {name: spread(texts_of(sheet, each)) for name, each in subjects.items()}
            self._texts[sheet.digest] = texts
        return frozenset(name for name in subjects if answers(wanted, texts[name]))


def texts_of(sheet: Sheet, subject: Subject) -> Iterator[str]:
    """Everything that a fit may be looked for by."""
    yield from (subject.id, subject.title)
    if subject.fit_kind is not None:
        yield subject.fit_kind.value
    station = sheet.stations.get(subject.station or "")
    if station is not None:
        yield station.title
    yield from (each.written for limit in subject.limits for each in (limit.lower, limit.upper) if each)
    for name in subject.dimensions():
        dimension = sheet.dimensions[name]
        yield from (name, dimension.title)
        for member in members_of(sheet, dimension):
            part = sheet.parts.get(member.position)
            yield part.title if part is not None else member.position


def spread(texts: Iterator[str]) -> Texts:
    """Texts as they are looked through."""
    return tuple(dict.fromkeys(f" {' '.join(words_of(text))} " for text in texts))


def answers(wanted: Sequence[tuple[Alternative, ...]], texts: Texts) -> bool:
    """Whether each thing asked for is there, by any of its names."""
    return all(any(_holds(each, texts) for each in alternatives) for alternatives in wanted)


def _holds(alternative: Alternative, texts: Texts) -> bool:
    """Whether all phrases of one name are there, in one text."""
    phrases = [_sought(each) for each in alternative]
    return any(all(phrase in text for phrase in phrases) for text in texts)


def _sought(phrase: Phrase) -> str:
    """A phrase as it stands in a text: its last word answers from its first letters on, a number whole.

    So a search answers while it is typed, and main 1 is not main 10.
    """
    whole = " " if phrase[-1][0].isdigit() else ""
    return f" {' '.join(phrase)}{whole}"
