"""Fits computed from dimensions: clearances, gaps, interferences, heights, ratios, centring; cold and warm.

Sizes are diameters unless a name says radial; a chain adds sizes with their signs.

expansion              signed chains of sizes, cold and at temperature
interference           press fits: pressure, stress, holding force
grip                   press fits at temperature: what is left, what it takes to assemble
compression            volumes at top dead centre, compression ratio, squish
ring_gap               piston ring gaps, cold and hot
shims                  lash shims, relief spring shims, backlash of skew gears
centring               housing offset and shaft run-out from gaps that have values
closure                sums of opposite gaps, a check on the readings
offset_probability     chance that an offset is within its limit
blade_polygon          what blade readings leave possible, and which contradict each other
offset_posterior       chance that an offset is within its limit, from blades or blades and values
centring_move          the move that centres, gaps after it, sag of the shaft in its clearance
joint_face             the move that centres while a joint face stays level

Directions around a shaft are seen from the nose of the engine: angle zero points to the top (the
deck), angles grow clockwise, "right" and "up" are positive. An offset is where the housing's centre
lies, seen from the shaft's centre. A shaft angle grows clockwise as well.
"""
