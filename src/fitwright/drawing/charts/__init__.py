"""Charts of the oil system, our own SVG (docs/decisions/0012): one drawing language everywhere.

`axes` what they share, `marks` marks and brackets, `rows` rows with a bar; `pressure_speed` (`curve_lines`,
`limit_lines` its parts) pressure over speed, `flow_budget`, `costs`, `film`, `film_over_cycle`.
"""
