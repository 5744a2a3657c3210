"""Assessments as pictures and figures, all generated, in the drawing language of the bench book.

`figures` values and limits in the reader's unit; `sentences` verdicts in words; `workings` the
figures of a working; `scale` the axis with its ticks; `limit_scale` the recurring picture: limits as
brackets, the measured interval as a bar, the hot interval outlined below; `marks` the four marks;
`svg` the few elements that a drawing is made of.

Numbers are always ink. A verdict is a word and a mark, never colour alone. Black and white suffices.
"""
