"""Assessments as pictures and figures, all generated, in the drawing language of the bench book.

`figures` values and limits in the reader's unit; `sentences` verdicts in words; `workings` the
figures of a working; `scale` the axis with its ticks; `limit_picture` the recurring picture: limits as
brackets, an interval as a bar, the hot one outlined below; `limit_scale` that of a fit; `sum_pictures`
those of quick sums; `marks` the four marks;
`canvas` a picture in the making with its writing; `oil_circuit` the oil circuit, `charts` charts of the oil
system, `oil_figures` their figures, `oil_style` a file of its own;
`part_place` the part with the place lit; `qr` a code for a camera or hand scanner; `svg` the few
elements that a drawing is made of; `writing` how wide words are and where they break.

Numbers are always ink. A verdict is a word and a mark, never colour alone. Black and white suffices.
"""
