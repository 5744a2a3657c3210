"""The command line: one file per command group, imported only when its command runs.

Only this package knows exit codes: 0 done, 1 something is outside or unproven where asked to fail,
2 usage or input error. Errors are one sentence that names the file, the place in it and the mend.
`--help` loads no numbers and no web.
"""
