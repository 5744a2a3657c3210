"""What is wrong with a circuit is said before anything is computed, once and by name."""

import pytest

from fitwright.physics.network import errors
from fitwright.physics.network.circuit import SUMP, Circuit, Path
from fitwright.physics.network.elements import Cooler, Filter, Jet, Orifice, Pipe, Pump, Restrictor
from fitwright.physics.network.sizes import VISCOSITY_FACTOR, Named

PUMP = Path("pump", SUMP, "gallery", Pump(1e-6))
JET = Path("jet", "gallery", SUMP, Orifice(2e-3))


def refused(*paths, **parameters):
    with pytest.raises(errors.CircuitError) as caught:
        Circuit((PUMP, JET, *paths), parameters)
    return caught.value


def test_a_sound_circuit_names_its_nodes_and_parameters():
    circuit = Circuit((PUMP, JET, Path("more", "gallery", "end", Pipe(Named("bore"), 0.1)),
                       Path("out", "end", SUMP, Orifice(1e-3))), {"bore": 4e-3})  # fmt: skip
    assert circuit.nodes == ("gallery", "end")
    assert circuit.own_parameters() == ("bore",)
    assert circuit.nominal().tolist() == [4e-3, 1.0, 0.0, 1.0]
    assert circuit.path("more").downstream == "end"
    assert circuit.of_kind(Orifice) == (1, 3)


def test_a_floating_node():
    lonely = refused(Path("lost", "here", "there", Pipe(5e-3, 0.1)))
    assert isinstance(lonely, errors.NoWayToSumpError)
    assert lonely.node == "here"


def test_a_node_behind_the_pump_only():
    dry = refused(Path("second", "well", "gallery", Pump(1e-6)))
    assert isinstance(dry, errors.NoWayToSumpError)
    assert "well" in str(dry)


def test_no_pump():
    with pytest.raises(errors.NoPumpError):
        Circuit((JET,))


def test_names_used_twice_and_ends_that_meet():
    assert isinstance(refused(Path("jet", "gallery", SUMP, Orifice(1e-3))), errors.RepeatedPathError)
    assert isinstance(refused(Path("ring", "gallery", "gallery", Orifice(1e-3))), errors.SamePlaceError)


def test_parameters_without_value_or_of_others():
    missing = refused(Path("bore", "gallery", SUMP, Orifice(Named("bore"))))
    assert isinstance(missing, errors.UnknownParameterError)
    assert missing.parameter == "bore"
    taken = refused(**{VISCOSITY_FACTOR: 2.0})
    assert isinstance(taken, errors.ReservedParameterError)
    follows = refused(Path("bore", "gallery", SUMP, Orifice(Named(VISCOSITY_FACTOR))))
    assert isinstance(follows, errors.ReservedParameterError)


@pytest.mark.parametrize(
    "element, size",
    [
        (Orifice(0.0), "diameter"),
        (Pipe(1e-3, -1.0), "length"),
        (Pipe(1e-3, 1.0, loss_coefficient=-0.1), "loss_coefficient"),
        (Pipe(float("nan"), 1.0), "diameter"),
        (Restrictor(-1e-3, 1e-3), "diameter"),
        (Filter(0.0), "resistance"),
        (Filter(1e9, 2e5, 1e5), "bypass_full_pressure"),
        (Jet(1e-3, 2e5, 2e5), "full_pressure"),
        (Cooler(1e9, 5e-3, 363.0, 353.0), "full_temperature"),
        (Orifice(Named("bore", -1.0)), "diameter"),
    ],
)
def test_sizes_that_mean_nothing(element, size):
    found = refused(Path("it", "gallery", SUMP, element), bore=2e-3)
    assert isinstance(found, errors.SizeError)
    assert (found.path, found.size) == ("it", size)
