"""Fits computed from dimensions: clearances, gaps, interferences, heights, ratios and centring, cold and warm.

It knows dimensions, expansion coefficients and temperatures, never readings and never a pump. Conventions: a
clearance is positive when the parts are free; diametral and radial are named apart everywhere; an interference is
the positive overlap on diameter at 20 degrees Celsius; offsets are vectors in the plane of the gaps, angles counted
anticlockwise from the first axis.
"""
