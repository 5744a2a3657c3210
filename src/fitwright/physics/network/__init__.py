"""The oil circuit: nodes, and paths through pipes, gaps, bearings, pump and relief valve.

`circuit` what is connected to what; `elements` the kinds of path; `solve` pressures and flows at operating
points and for samples of the clearances; `derivatives` what each size does to each pressure; `outputs` flow
budget, reserve, feed of the big ends and why pressure falls.
"""
