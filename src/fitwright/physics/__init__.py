"""Pure physics: SI floats and arrays in, frozen results out.

No input or output, no clock, no log and no chance happens here, so that equal inputs give equal
results. Angles are radians, temperatures are kelvin, pressures say whether they are gauge or
absolute. A size is referred to 20 C (ISO 1) unless its name says otherwise.

numerics    errors shared by all physics, root finding, quadrature
oil         viscosity, density, shear
passages    pipes, orifices, gaps, edges
metrology   readings, their uncertainty, conformity, gauge studies
fasteners   thread, friction, preload
fits        fit kinds, sizes at temperature, press fits, centring
bearings    journal bearings
pump        oil pumps and relief valves
train       crank train
network     the oil circuit
selection   choosing and reworking parts
"""
