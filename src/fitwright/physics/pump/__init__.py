"""Oil pumps and relief valves: what a pump delivers, what its gaps leak, what the valve lets by.

trochoid   internal rotor pumps: profiles, chambers, displacement, ripple
spur       external gear pairs
crescent   internal gears with a crescent
stages     pressure and scavenge stages of a dry sump
leakage    each leak from its own clearance
delivery   flow of a pump with its leaks and its filling
filling    what the inlet costs, and the speed from which chambers no longer fill
relief     cracking, bypass area by lift, override, leaks of seat and plunger
drive      drive torque, drive flats
cautions   what never to do to a pump or its valve

An angle of a rotor is turned from where a tooth of the outer rotor lies deepest in the inner rotor.
"""
