"""What goes wrong at the bench, and how it is put right at once: each at one reading of a play."""

from __future__ import annotations

from decimal import Decimal

from tests.plays.bench_day import Line
from tests.plays.measuring import Measuring, Stop
from tests.plays.person import Seen


def point_misplaced(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """The decimal point one digit too far on: asked, and the guess taken by its number."""
    size = line["body"]["observation"]["value"]["typed"]
    measuring.ready(stop, line)
    seen = measuring.line(f"{Decimal(size) * 10:f}".rstrip("0"))
    assert (seen.asks, seen.stop) == ("slip", stop)
    guesses = [each for each in seen.answers if each.partition(" ")[0].startswith(size)]
    assert guesses, f"{size} is not among {seen.answers}"
    return measuring.settles(measuring.line(str(seen.answers.index(guesses[0]) + 1)))


def instead(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """One division too much, seen when it is kept: the right one instead."""
    text = measuring.ready(stop, line)
    measuring.settles(measuring.line(_next(text)))
    assert measuring.person.sees().stop != stop
    return measuring.settles(measuring.line(f"/{text}"))


def undone(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """One division too much: taken back, which leads back to the place, and read there again."""
    text = measuring.ready(stop, line)
    measuring.settles(measuring.line(_next(text)))
    seen = measuring.line("/")
    assert "Taken back" in seen.words
    assert seen.stop == stop
    return measuring.settles(measuring.line(text))


def passed_on(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """Gone on without a reading, and back by the number of the place."""
    measuring.to_place(stop)
    assert measuring.line("*").stop != stop
    return measuring.settles(measuring.line(measuring.ready(stop, line)))


def read_twice(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """Read a second time, which agrees: nothing is asked, and both count."""
    text = measuring.ready(stop, line)
    measuring.settles(measuring.line(text))
    measuring.to_place(stop)
    seen = measuring.line(text)
    assert not seen.asks
    measuring.readings += 1
    return seen


def contradicted(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """A blade goes, and then a thinner one does not: contradictory, until that is taken back."""
    text = measuring.ready(stop, line)
    goes = text.removesuffix("+")
    thinner = f"{Decimal(goes) - _division(goes):f}".removeprefix("0" if goes.startswith(".") else "")
    measuring.settles(measuring.line(text))
    measuring.settles(measuring.line(f"{thinner}-"))
    scales = measuring.person.page.locator("#scales")
    assert "contradict" in scales.inner_text()
    seen = measuring.line("/")
    assert "Taken back" in seen.words
    assert seen.stop == stop
    assert "contradict" not in scales.inner_text()
    return seen


def one_place_too_far(measuring: Measuring, stop: Stop, line: Line) -> Seen:
    """A place passed over unseen, so that this reading stands one too far: moved back by one tap."""
    text = measuring.ready(stop, line)
    measuring.line("*")
    measuring.settles(measuring.line(text))
    measuring.person.types("1", enter="")
    measuring.person.taps_on("button[name=move][value=back]")
    seen = measuring.person.waits()
    assert seen.state == "kept", seen.words
    return seen


def _division(text: str) -> Decimal:
    return Decimal(1).scaleb(-len(text.partition(".")[2]))


def _next(text: str) -> str:
    """The size one division larger, or its last digits."""
    if text.isdigit():
        return f"{(int(text) + 1) % 100:02d}"
    return f"{Decimal(text) + _division(text):f}"
