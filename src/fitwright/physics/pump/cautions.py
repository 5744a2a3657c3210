"""What never to do to a pump or its valve: sentences that go with the numbers, each where it belongs."""

from __future__ import annotations

from typing import Final

NEVER_LONGER_KIDNEYS: Final = (
    "Never lengthen the ends of the kidney ports, nor chamfer their edges towards the land between inlet and"
    " outlet: that land is what seals."
)
KEEP_TRAPPED_OIL_GROOVES: Final = (
    "Lapping can erase the shallow grooves that lead trapped oil away: cut them again to the drawing."
)
ROTOR_EDGES_STAY_SHARP: Final = "Deburr rotors by 0.1 mm at most: rounded edges leak across the tips."
SHIMS_MASK_NO_LEAK: Final = (
    "Shims set the pressure at which the valve opens; they never mend a leak. Find what leaks first."
)
SPRING_ROOM: Final = (
    "The spring needs free length less coil bind above preload plus full lift plus 1 mm; a bound spring holds"
    " the valve shut, and filter or seals burst."
)
LIMITS_OF_THE_MAKER: Final = (
    "The maker's relief pressure and limits govern; above them filters, coolers and seals fail. A qualified"
    " person decides."
)
