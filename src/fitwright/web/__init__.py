"""Pages for the bench: one module per page, a route and a context dataclass each; templates and static files.

It receives use cases from whoever starts it and never opens a store. Only this package knows status
codes. Pages work without a script where that is possible, under a strict content security policy,
with no file from elsewhere.
"""
