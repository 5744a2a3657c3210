"""Metrology: from readings to a verdict.

Lengths are metres, uncertainties are standard uncertainties (one sigma), probabilities lie between 0 and 1.
An unknown is named by a key; whatever names the same key shares the same unknown.

unknowns        the unknowns that readings share (calibration, setting, master)
readings        value readings, blades and plugs, drag
estimation      all places of a chain estimated jointly, with what contributes how much
sources         independent sources of error and what they contribute to a sum
welch, student  effective degrees of freedom, Student's t
conformity      decision rule, bounds, probability, verdict, acceptance zone, what a gauge can prove
chain           a signed chain of dimensions judged at its worst places
combinations    the combinations of places that it is judged on
known           the part of each combination that is known from values
distribution    how one combination is spread over its values, for pictures
outcomes        what the readings say of each bound at each combination
result          what a judged chain states
edges           blade answers as inequalities between the gap and what was put into it
likelihood      probability of all answers at one place, given its gap
posterior       what the answers at one place leave of its gap, by quadrature (panels)
blades          which places blades speak of, and how each combination is judged:
one_sided         bounded by blades on one side only: closed form
truncated         bounded on both sides, by blades or by values (given, mixture)
half_open         some gaps of one kind, some of the other
joint             several gaps at once, or answers that share much, by a lattice rule (lattice)
contradiction   answers that cannot all be right, and the weight of each explanation
settling        what would settle a bound
blade_sets      which limits a set of blades can prove, and what blade is missing
blade_stacks    which blades, put together, come nearest a thickness
size_wanted     the size of the one member that is missing
repeats, drift, form        repeats at a place, a setting that moved, taper and out-of-round
propagation, temperature    the general law, and lengths referred to 20 C
gauge_study     five-lift repeat, crossed repeatability and reproducibility study
"""
