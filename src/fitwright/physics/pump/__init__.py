"""Oil pumps and relief valves: what a pump delivers, what its gaps leak, what the valve lets by.

trochoid       internal rotor pumps: profiles, curvature
chambers       their chambers over a turn: displacement, ripple
tooth_sizes    their tooth data from sizes that can be measured
spur           external gear pairs
gear_profile   their outline
crescent       internal gears with a crescent
stages         pressure and scavenge stages on one shaft
leakage        one leak through one clearance; both faces; where the cube law ends
rotor_leaks    the leaks of internal rotor pumps
gear_leaks     the leaks of gear pumps
inlet          what the way from the sump costs, what a rounded edge is worth
filling        the speed from which chambers no longer fill
relief         a relief valve: cracking, full bypass, flow at a pressure
override       its pressure at a flow, shims, room of its spring
drive          torque, stress on drive flats, their free rock
cautions       what never to do to a pump or its valve
kernels        flow of pump and valve, compiled, with derivatives

An internal rotor pump stands at angle zero where a tip of its inner rotor meets a tooth between the widest
chambers.
"""
