"""The subjects of a starter sheet: each module makes the blocks of one or two sections from the plan.

Bottom end: `crank`, `main_bearings`, `big_ends` with `rods`, `rolling_bearings`, `cylinders`, `rings`,
`deck`. Head: `head`, `springs`, `camshafts`, `valve_gear`. Together: `trial_build`, `piston_to_valve`,
`cam_drive`, `ports` (two-strokes). Oil: `pump_body` with `pump_rotors` or `pump_gears`, `dry_sump`,
`pump_drive`, `pump_on_crank`, `relief_and_pickup`. Ends: `seals`, `crank_ends`, `ancillaries`.

A module exports functions from `Plan` to `Section`; what several share (rods, pump bodies) exports
blocks. No module knows which engine gets which section: that is `sheet`.
"""
