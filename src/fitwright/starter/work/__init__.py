"""The assembly of a starter sheet: consumables, tightening groups, and the order of work.

`consumables` and `joints` make the tables of what is used and tightened; `joints` states no thread, no
class and no torque, since these are the maker's to state. The order of work is made stage by stage:
`measuring`, `bottom_end`, `oil_system`, `top_end`, `outside`, `running`. Each stage takes from `found`
what this very sheet has: the fits and eye checks of its stations, its one-time parts, its groups.
`order` puts the stages together and ties each step to those that are there before it.
"""
