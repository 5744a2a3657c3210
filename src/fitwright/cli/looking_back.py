"""What is asked once a reading is durable: a repeat that differs, a run too alike or one place off."""

from __future__ import annotations

from fitwright.bench.look_back import Going, LookBack, look_back_answer
from fitwright.bench.look_back import look_back as next_question
from fitwright.cli.session import Session
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import ReadingsMoved


def look_back(session: Session, reading_id: str) -> None:
    """Ask what the reading just taken raises, each question once; the answers are kept."""
    while True:
        going = Going(tuple(session.order), session.using.sitting, tuple(session.taken))
        asked = next_question(session.bench, going, reading_id)
        if asked is None:
            return
        answer = session.answered(session.terminal.choose(asked.question.text, asked.answers))
        entries = look_back_answer(session.bench, going, asked, answer, person=session.using.person)
        _keep(session, asked, answer, entries)
        if asked.repeat is None and asked.move is None and answer == "no":
            session.say("Undo those that were not read, then read them again.")


def move(session: Session, entry: NewEntry) -> None:
    """Write a move of readings; one undo puts them back."""
    count = len(entry.body["moves"])
    words = "1 reading" if count == 1 else f"{count} readings"
    session.undo.remember(entry.id, f"the move of {words}")
    session.write([entry], f"moved {words} (undo takes the move back)")


def _keep(session: Session, asked: LookBack, answer: str, entries: list[NewEntry]) -> None:
    if entries[0].kind == ReadingsMoved.kind:
        move(session, entries[0])
        session.write(entries[1:], "")
        return
    if asked.repeat is not None and answer == "withdraw":
        session.undo.forget(asked.reading)
    elif asked.repeat is not None:
        session.undo.remember(entries[0].id, f"the choice to {answer}")
    session.write(entries, f"answered: {answer}" if asked.repeat is not None else "")
