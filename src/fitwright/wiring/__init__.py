"""The composition root: a folder becomes a shop with its record, its states and its verdicts.

`shop` the shop itself; `opening` a folder becomes one; `errors` what can be wrong with asking it.
"""

from fitwright.store.backup import Manifest
from fitwright.store.verify import Verification
from fitwright.wiring.errors import ShopError, UnknownBuildError
from fitwright.wiring.opening import back_up_shop, open_shop, restore_shop, verify_shop
from fitwright.wiring.shop import Shop, Written, new_id, utc_now

__all__ = [
    "Manifest",
    "Shop",
    "ShopError",
    "UnknownBuildError",
    "Verification",
    "Written",
    "back_up_shop",
    "new_id",
    "open_shop",
    "restore_shop",
    "utc_now",
    "verify_shop",
]
