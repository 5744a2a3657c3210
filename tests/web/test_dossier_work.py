"""Many dossiers asked for at once: one is made after the other, and nobody's request fails."""

from __future__ import annotations

import threading

from fitwright.web.dossier_work import MOST, DossierWork, Wanted


class SlowShop:
    """A shop whose dossiers are made as soon as they may be."""

    position = 1

    def __init__(self):
        self.may, self.made = threading.Event(), []

    def handed_over(self, build, revision):
        self.may.wait(30)
        self.made.append((build, revision))
        return self


def test_more_at_once_than_are_kept_fail_nobody():
    shop, work, answers = SlowShop(), DossierWork(), []
    waiting = threading.Event()

    def ask(revision, wait):
        answers.append(work.ask(shop, Wanted("b", "owner", "A4", "mm", revision), wait=wait).state)

    ask(1, 0.0)  # at work on this one
    first = threading.Thread(target=lambda: (waiting.set(), ask(2, 20.0)))
    first.start()
    waiting.wait(5)
    threading.Event().wait(0.2)
    for revision in range(3, MOST + 4):
        ask(revision, 0.0)
    first.join(10)
    shop.may.set()
    assert not first.is_alive()
    assert set(answers) == {"getting ready"}
    assert len(answers) == MOST + 3
    assert work.ask(shop, Wanted("b", "owner", "A4", "mm", 2), wait=20.0).state == "ready"
