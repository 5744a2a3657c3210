"""How fast, how large, how exact: each figure beside the one to reach. `./run speed` prints them all.

`figure` a measured figure beside its target; `large_build` the build that they speak of; `verdicts`,
`accuracy`, `over_http`, `pages`, `starting`, `record` what is measured, one module for each subject;
`kill_writers` a long run of kills by itself. Nothing here is a test: a figure out of reach is printed.
"""
