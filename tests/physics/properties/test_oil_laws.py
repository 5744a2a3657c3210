"""Laws that oil keeps whatever the oil."""

from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.data.oils import j300
from fitwright.physics.oil.dilution import Fuel, diluted
from fitwright.physics.oil.grades import classified
from fitwright.physics.oil.oil import Oil, density, dynamic_viscosity, kinematic_viscosity
from fitwright.physics.oil.walther import viscosity_on_line, walther_line_from_slope

w_grades = st.sampled_from(["", "5W", "20W"])
FEW = settings(max_examples=60, deadline=None)


@st.composite
def oils(draw):
    at_100 = draw(st.floats(4e-6, 26e-6))
    line = walther_line_from_slope(at_100, temperature=373.15, slope=draw(st.floats(2.4, 3.7)))
    plain = Oil(float(viscosity_on_line(*line, 313.15)), at_100, draw(st.floats(820.0, 920.0)))
    low = float(dynamic_viscosity(plain, 423.15))
    share = draw(st.floats(0.6, 1.0))
    return Oil(plain.kinematic_viscosity_40, at_100, plain.density_15, share * low)


@FEW
@given(oil=oils(), temperature=st.floats(263.15, 433.15), warmer=st.floats(0.5, 30.0))
def test_warmer_oil_is_thinner_and_lighter(oil, temperature, warmer):
    both = [temperature, temperature + warmer]
    for law in (kinematic_viscosity, density, dynamic_viscosity):
        cold, warm = law(oil, both)
        assert cold > warm > 0.0


@FEW
@given(oil=oils(), temperature=st.floats(283.15, 433.15), rate=st.floats(0.0, 1e8), more=st.floats(1.0, 10.0))
def test_shear_never_thickens_and_leaves_a_share(oil, temperature, rate, more):
    still, slow, fast = dynamic_viscosity(oil, temperature, [0.0, rate, more * rate])
    assert still >= slow >= fast > 0.19 * still


@FEW
@given(oil=oils(), fuel=st.floats(0.0, 0.19), more=st.floats(0.001, 0.01))
def test_more_fuel_never_thickens(oil, fuel, more):
    petrol = Fuel(0.5e-6, 0.3e-6, 745.0)
    first, second = diluted(oil, petrol, fuel), diluted(oil, petrol, fuel + more)
    for law in (kinematic_viscosity, dynamic_viscosity, density):
        assert law(second, 373.15) < law(first, 373.15)


@FEW
@given(at_100=st.floats(3e-6, 30e-6), sheared=st.floats(1e-3, 6e-3), winter=w_grades)
def test_knowing_the_high_shear_viscosity_only_narrows(at_100, sheared, winter):
    limits = j300()
    one = classified(at_100, sheared, limits, winter_grade=winter)
    assert set(one.grades) <= set(classified(at_100, None, limits).grades)
    assert len(one.grades) <= 1
