"""Journal bearings: what a film carries, how much oil it draws and what it costs.

All numbers without unit are dimensionless in the customary way: Sommerfeld number S = (mu N / P)(R/c)^2,
side flow Qs / (R c N L), friction variable (R/c) f, with the speed N in revolutions per second, the
specific load P = W / (L D) and the radial clearance c.

curves                 dimensionless characteristics over the eccentricity at one length ratio
tables, steady         tables of the finite bearing; steady points of one or a million bearings out of them
direct                 the same by solving the film at each point; mobility likewise
geometry               sizes, feeds, position and motion of the journal
grids, extent, sums    nodes of a film, where to begin, and what it adds up to
film                   the film by direct solution: pressure, filling, forces, flows, torques
equilibrium            where the journal comes to lie under a load, by direct solution
feed                   flow that a groove, hole or pocket pushes through the gap
fed_bearing, supply    a bearing with its feed: flow drawn, heat balance, film temperature and thickness
mobility, orbit        maps of mobility; path of the journal over a cycle, smallest film, peak pressure
touching               a film held against the roughness: a number, or none
"""
