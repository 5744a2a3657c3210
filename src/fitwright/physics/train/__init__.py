"""Crank train: motion of piston and rod, stated gas pressure, loads of big ends and mains over the cycle.

Seen along the crank so that it turns anticlockwise: y points from the crank's axis along the cylinder to its
head, x a quarter turn behind it. Crank angle zero has the throw along y; the cycle begins with firing.

kinematics             piston and rod of a slider-crank with an offset pin
gas_force              a stated pressure curve over the cycle
bearing_loads          loads of pins and mains from gas and inertia
"""
