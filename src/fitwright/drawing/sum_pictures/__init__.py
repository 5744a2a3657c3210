"""Small pictures of the quick sums, whose measures follow the numbers that were typed.

They take plain numbers, and words for them that are made by whoever asks: a picture knows no sum.
What is small beside the rest (a clearance, an interference, growth by heat) is drawn larger than it
is; the words beside it say its size.

`sketch` the pen they share; `rulers` an amount in two units; `blade_answers` what blades say of a gap;
`blade_stack` blades on each other; `round_shaft` a housing round a shaft, and the plane of its offset;
`growth` members that grow with heat; `spread` indications on an axis; `study` those of a study, part by
part; `press` a hub on a shaft; `chain` the members of a fit, end to end; `oil_line` viscosity over
temperature; `leaks` gaps that oil leaks through; `crank_oil` oil out of a groove and through a crank;
`inlet` the edge of a drilling;
`pumps` rotors, gears, a relief valve;
`bearing` a journal in its film; `fasteners` bolts that are tightened, stretch or strip, and a wrench.
"""
