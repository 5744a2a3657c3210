"""What is asked once a reading is durable: a repeat that differs, a run too alike or one place off."""

from __future__ import annotations

from fitwright.bench.alike import alike_in
from fitwright.bench.asking import Answered, answer_entry
from fitwright.bench.moving import moved_by, off_by_one, run_of
from fitwright.bench.repeats import REPEAT_ANSWERS, repeat_answer, repeat_question
from fitwright.cli.session import Session
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry


def look_back(session: Session, reading_id: str) -> None:
    """Ask what the reading just taken raises, each question once; the answers are kept."""
    _ask_about_repeat(session, reading_id)
    _ask_about_alike(session, reading_id)
    _ask_about_move(session, reading_id)


def move(session: Session, entry: NewEntry) -> None:
    """Write a move of readings; one undo puts them back."""
    count = len(entry.body["moves"])
    words = "1 reading" if count == 1 else f"{count} readings"
    session.undo.remember(entry.id, f"the move of {words}")
    session.write([entry], f"moved {words} (undo takes the move back)")


def _ask_about_repeat(session: Session, reading_id: str) -> None:
    asked = repeat_question(session.bench, reading_id)
    if asked is None:
        return
    answer = session.answered(session.terminal.choose(asked.question.text, REPEAT_ANSWERS))
    entries = repeat_answer(session.bench, asked, answer, person=session.using.person)
    if answer == "withdraw":
        session.undo.forget(reading_id)
    else:
        session.undo.remember(entries[0].id, f"the choice to {answer}")
    session.write(entries, f"answered: {answer}")


def _ask_about_alike(session: Session, reading_id: str) -> None:
    question = alike_in(session.bench, session.taken)
    if question is None:
        return
    value = question.key.rpartition(":")[2]
    if value in session.asked:
        return
    if _yes(session, question, reading_id, once=value) == "no":
        session.say("Undo those that were not read, then read them again.")


def _ask_about_move(session: Session, reading_id: str) -> None:
    run = run_of(session.bench, session.order, session.using.sitting)
    found = off_by_one(run) if run is not None else None
    if run is None or found is None or found.key in session.asked:
        return
    if _yes(session, Question(found.key, found.text), reading_id, once=found.key) == "yes":
        move(session, moved_by(session.bench, run, found.move, person=session.using.person))


def _yes(session: Session, question: Question, reading_id: str, *, once: str) -> str:
    answer = session.answered(session.terminal.choose(question.text, ("yes", "no")))
    session.asked.add(once)
    answered = Answered(question, "", answer)
    entry = answer_entry(answered, build=session.build, entry_id=reading_id, person=session.using.person)
    session.write([entry], "")
    return answer
