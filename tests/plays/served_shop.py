"""A shop in a folder, served by the real program, and looked into beside it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from fitwright.assess.results import State
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import BuildStarted
from fitwright.records.projection import BuildState
from fitwright.wiring import Shop, open_shop
from tests.plays.bench_day import readings_in, settings_in
from tests.support.serving import served


@dataclass(frozen=True, slots=True)
class ServedShop:
    """Where the server answers, and the same record opened by this process."""

    address: str
    shop: Shop

    def starts(self, code: str, sheet: str) -> None:
        """Start a build of which nothing is measured."""
        self.shop.start_build(code, sheet, BuildStarted(code=code, title=code, sheet=""))

    def verdicts(self, build: str, state: State) -> dict[str, str]:
        """What the record proves, by fit and dimension."""
        with self.shop.held():
            found = self.shop.assessment(build, state)
        return {each.id: each.verdict.value for each in found.verdicts.values()}

    def settings(self) -> dict[str, tuple[object, ...]]:
        """What each gauge was set to."""
        with self.shop.held():
            return settings_in(self.shop.state)

    def readings(self, build: str) -> list[tuple[str, ...]]:
        """The readings of a build that stand, in order of entry."""
        return readings_in(BuildState.replay(build, list(self.shop.record.entries(build=build))))

    def entries(self, build: str) -> Counter[str]:
        """How many entries of each kind the record of a build has."""
        return Counter(each.kind for each in self.shop.record.entries(build=build))


@contextmanager
def shop_with(folder: Path, shelf: Sequence[NewEntry] = ()) -> Iterator[ServedShop]:
    """Serve a shop in which these things are entered already."""
    shop = open_shop(folder / "shop")
    if shelf:
        shop.write(shelf)
    with served(folder / "shop") as server:
        yield ServedShop(server.address, shop)
    shop.close()
