"""Pictures as SVG text: engine section, limit scale, oil circuit, rotor set, bolt patterns; and chart specs.

An assessment goes in, a string comes out; page and printed document use the same. Conventions:
millimetres on paper, x to the right, y down as in SVG; angles as seen from the front of the engine;
a verdict is always a word and a mark, never a colour alone; hatching is kept for cut metal.
"""
