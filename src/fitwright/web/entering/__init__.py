"""The forms by which things are entered for a build, whichever page they stand on.

`controls` what a form asks for, `asked` what an address or form says, `kinds` a form by its name and
the forms of a page, `offers` those that a page offers, `entry_form` a form as it stands, `making` the
entries that it makes, `supposing` what it would do, `effects` what it would un-prove, `opening` a page
with the form that its address asks for, `sending` a form asked or written and what came of it.
"""
