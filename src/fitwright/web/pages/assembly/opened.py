"""What is open on a page of assembly: the build, how its assembly stands, and how it is read."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Final

from fitwright.assess.assembly.results import ConditionKind, Deed, GroupStanding, Standing, StepStanding
from fitwright.assess.results import State
from fitwright.bench.context import Bench
from fitwright.drawing.tightening_figures import TighteningReader
from fitwright.model.fastener import TighteningGroup
from fitwright.records.times import moment_of
from fitwright.units.families import Family
from fitwright.web.addresses import assembly_address, fit_address, parts_address, thing_address
from fitwright.web.hands import Hands
from fitwright.web.visit import NotThereError, Visit
from fitwright.web.whose import at_the_shop, when_written, zone_of

WRITTEN: Final = "%Y-%m-%d %H:%M"
CHOOSE: Final = "Choose one on the page Assembly."
SOON: Final = timedelta(minutes=10)
"""What is kept later than this after a device said it has both times."""


def sentence(words: str) -> str:
    """Words as a sentence of its own."""
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""


def _utc(text: str) -> str:
    return text.replace("Z", "+00:00")


@dataclass(frozen=True, slots=True)
class Opened:
    """A build on a page of assembly; made inside `held`, so that all of it belongs together."""

    hands: Hands
    code: str
    family: Family
    bench: Bench
    now: datetime

    @classmethod
    def of(cls, visit: Visit) -> Opened:
        """The build that is visited, as it stands now."""
        _, hands, code, family = visit
        return cls(hands, code, family, hands.shop.bench(code), datetime.now(UTC))

    @property
    def standing(self) -> Standing:
        """How the whole assembly stands; kept by the shop as long as nothing changes."""
        return self.hands.shop.assembly(self.code, now=self.now)

    def step(self, name: str) -> StepStanding:
        """How one step stands.

        Raises
        ------
        NotThereError
            If the order of work has no such step.
        """
        found = self.standing.steps.get(name)
        if found is None:
            raise NotThereError(f'The order of work has no step "{name[:60]}".', CHOOSE)
        return found

    def group_asked(self, name: str) -> TighteningGroup:
        """A tightening group as the sheet has it.

        Raises
        ------
        NotThereError
            If it has no such group.
        """
        found = self.bench.sheet.tightening_groups.get(name)
        if found is None:
            raise NotThereError(f'This engine has no tightening group "{name[:60]}".', CHOOSE)
        return found

    def group(self, name: str) -> GroupStanding:
        """How a tightening group of the sheet stands: known long before everything else after an entry."""
        from fitwright.assess.assembly.standing import group_standing_of  # loads the physics of fasteners

        asked = self.group_asked(name)
        return group_standing_of(self.hands.shop.assessor(self.code), asked.id, now=self.now)

    @property
    def reader(self) -> TighteningReader:
        """Whoever reads the figures of fasteners."""
        return TighteningReader(self.family)

    def name_of(self, person: str | None) -> str:
        """A person by name."""
        held = self.bench.shop.people.get(person or "")
        return held.body.name if held is not None else person or "nobody named"

    def moment(self, moment: datetime | None) -> str:
        """A moment in the shop's time zone."""
        return moment.astimezone(zone_of(self.bench.shop)).strftime(WRITTEN) if moment is not None else ""

    def when(self, entry_id: str, *, with_kept: bool = False) -> str:
        """When something was entered, as its device said; if asked, when it was kept where much later."""
        held = self.bench.build.ledger.recorded.get(entry_id)
        if held is None:
            return ""
        said, kept = held.entry.client_time, held.entry.committed_at
        when = when_written(self.bench.shop, held.entry)
        soon = said is None or moment_of(_utc(kept)) - moment_of(_utc(said)) <= SOON
        return when if soon or not with_kept else f"{when}, kept {at_the_shop(self.bench.shop, kept)}"

    def deed(self, deed: Deed, *, with_kept: bool = False) -> str:
        """Who did something, when, in which words."""
        said = f": {deed.words}" if deed.words else ""
        when = self.when(deed.entry, with_kept=with_kept)
        return f"{self.name_of(deed.person)}{f', {when}' if when else ''}{said}"

    def step_address(self, step: str, **asked: str) -> str:
        """The page of a step."""
        return assembly_address(self.code, self.family, step=step, **asked)

    def group_address(self, group: str, **asked: str) -> str:
        """The page of a tightening group."""
        return assembly_address(self.code, self.family, group=group, **asked)

    def fit_address(self, subject: str) -> str:
        """The page of a fit or dimension that is judged; nowhere for what is not."""
        known = self.hands.shop.assessor(self.code).judge.subjects
        return fit_address(self.code, subject, State.CURRENT, self.family) if subject in known else ""

    def address(self, kind: ConditionKind, subject: str, step: str) -> str:
        """Where somebody sees to a condition of a step."""
        code, family = self.code, self.family
        if kind is ConditionKind.AFTER:
            return self.step_address(subject)
        if kind is ConditionKind.FIT:
            return self.fit_address(subject)
        if kind in (ConditionKind.TIGHTENED, ConditionKind.TIGHTENS):
            return self.group_address(subject)
        if kind is ConditionKind.REPLACED:
            return thing_address(code, family, position=subject)
        if kind in (ConditionKind.CURED, ConditionKind.USED):
            return self.step_address(step, do="used", consumable=subject)
        asked = {"check": subject} if kind is ConditionKind.EYE_CHECK else {"subject": subject}
        do = "eye" if kind is ConditionKind.EYE_CHECK else "photo"
        return parts_address(code, family, do=do, **asked)
