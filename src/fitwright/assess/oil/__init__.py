"""The oil system of a build, predicted from what was measured of it.

- `sizes`: what is known of each size that the circuit names, cold and at oil temperature;
- `draws`: the same as a pool of equally likely engines, for bands;
- `bands`: 95 % bands of whatever the circuit answers, from few solutions.
"""
