"""Flow through what oil passes: drillings and pipes, orifices, gaps between still and moving walls.

A pressure drop is the pressure upstream minus downstream; negative, it reverses the flow. Flows are volumes.

pipes        friction factor, flow and pressure drop of pipes and drillings
orifices     sharp orifices
gaps         slots, annular clearances, faces: laminar leakage by the cube law
edges        loss coefficients of inlet edges and mitre bends, each by a named author
kernels      the same laws compiled, one passage at a time, with their derivatives
"""
