"""How assembly stands: steps, tightening groups, concessions, rework orders, consumables, open points.

`results` what is said; `standing` puts it together; `steps` and `conditions` the order of work; `moments`
what a fit was at an earlier moment of the record; `groups` and `fasteners` what was tightened; `joint` a
group as physics sees it; `torque_effect` what a torque would do before it is recorded, `untightened` what
other parts in the places of fasteners would; `permissions` concessions and deviation permits; `rework`,
`consumables`, `one_time`, `moves`; `open_points` all that a hand-over shows.
Everything is pure: records, model and a moment in, frozen results out.
"""
