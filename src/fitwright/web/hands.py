"""What every page has at hand: the shop, the write token, this device's name, what is drawn already."""

from __future__ import annotations

from dataclasses import dataclass, field

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request

from fitwright.assess.results import State
from fitwright.units.families import Family
from fitwright.web.dossier_work import DossierWork
from fitwright.web.fit_lines import FitLines
from fitwright.web.listeners import Listeners
from fitwright.web.oil_work import OilWork
from fitwright.web.searching import Searches
from fitwright.web.security import Token
from fitwright.web.shop import ShopForWeb
from fitwright.web.uploads import Uploads
from fitwright.web.view import View

__all__ = ["Hands", "View", "family_of", "hands_of", "is_known", "state_of"]


@dataclass(frozen=True, slots=True)
class Hands:
    """The shop with what belongs to this run of the server."""

    shop: ShopForWeb
    token: Token
    device: str
    lines: FitLines = field(default_factory=FitLines)
    uploads: Uploads = field(default_factory=Uploads)
    searches: Searches = field(default_factory=Searches)
    oil: OilWork = field(default_factory=OilWork)
    dossiers: DossierWork = field(default_factory=DossierWork)
    listeners: Listeners = field(init=False)

    def __post_init__(self) -> None:
        """Listeners are those of this shop."""
        object.__setattr__(self, "listeners", Listeners(self.shop))


async def is_known(hands: Hands, build: str) -> bool:
    """Whether there is such a build, also one that another program has started since.

    Afterwards it is open: what is asked of it next waits for nobody, and lets nobody wait.
    """
    return await run_in_threadpool(_is_there, hands.shop, build)


def _is_there(shop: ShopForWeb, build: str) -> bool:
    if build not in shop.builds():
        with shop.held():
            if build not in shop.builds():
                return False
    shop.bench(build)
    return True


def hands_of(request: Request) -> Hands:
    """The hands of the application that answers this request."""
    hands = request.app.state.hands
    assert isinstance(hands, Hands)  # noqa: S101
    return hands


def state_of(request: Request) -> State:
    """The state asked for; the current one unless the address says otherwise."""
    wanted = request.query_params.get("state")
    return State.AS_RECEIVED if wanted == State.AS_RECEIVED.value else State.CURRENT


def family_of(request: Request, build: str) -> Family:
    """The units asked for, else those of the build's sheet."""
    wanted = request.query_params.get("units")
    if wanted is None:
        wanted = hands_of(request).shop.bench(build).sheet.engine.unit_family
    return "inch" if wanted == "inch" else "mm"
