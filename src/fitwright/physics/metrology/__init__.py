"""What readings prove: reading model, propagation, blades as censored readings, conformity.

Conventions: sizes in metres at 20 degrees Celsius; `standard_uncertainty` is one standard deviation; a blade bounds a
gap and is never a value; probabilities are those of a bound holding, not of a part being good. Methods follow the
GUM and its supplements; the sources are named in each function.
"""
