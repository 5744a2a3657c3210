"""Threaded fasteners: thread, friction, preload, stretch, stripping; what a torque says and what not.

A preload is the tension that tightening leaves in the fastener. It is always given with its band:
torque alone does not say how much of it went into friction.

thread            diameters and areas of ISO metric, unified and Whitworth threads, and their tolerances
strength          property classes as numbers: tensile, yield and proof stress
friction          torque from preload and back, the three shares of torque, loosening
band              preload with its 95 % band from wrench and friction
stress            tension with torsion: yield and proof utilisation, preload at a utilisation, onset of yield
resilience        how far bolt and clamped parts give
angle             preload from an angle past a snug torque; castle nuts
stretch           preload from stretch, stretch from preload, permanent set
group             fasteners of one joint held against each other: which one is odd, and which way
engagement        how much of a thread carries, areas that shear
stripping         threads pulled out of the parent metal, engagement that is needed
warm              preload at temperature
wrench            a setting at an extension, another lubricant at equal preload, whether a torque can be meant
seat              pressure under the head

Coefficients of friction belong to a lubricant and a surface; nothing here knows them better than the table
they came from.
"""
