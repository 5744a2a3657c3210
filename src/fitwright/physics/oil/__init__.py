"""Engine oil: viscosity, density, shear; what a grade says and what fuel in the oil does.

Temperatures are kelvin, kinematic viscosities m2/s (1 mm2/s = 1e-6 m2/s = 1 cSt), dynamic viscosities Pa s.

oil                    an oil by its data sheet; its viscosity and density at temperature, shear and pressure
shear                  an oil whose high-shear viscosity is not known
walther                viscosity over temperature from two points, or from one and a slope
grades                 SAE J300: which grades an oil can be
grade_middle           an oil of which only the grade is known
viscosity_index        viscosity index from two viscosities
pressure               how much viscosity grows with pressure where nobody measured it
dilution               what fuel in the oil leaves of its viscosity
kernels                viscosity and density compiled, from a flat vector of parameters
"""
