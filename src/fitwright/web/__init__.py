"""The bench in the browser: server-rendered pages, each with a context dataclass.

`app` puts the pages together; `security` host check, origin and token on writes, content security
policy; `rendering` templates; `pages/` one module per page (route + context); `writing` what a form
posts becomes entries. It receives a shop; it never opens a store. Only this package knows status
codes.
"""
