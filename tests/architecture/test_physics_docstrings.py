"""Every public physics function documents what its signature says, with units and sources."""

import inspect
import typing

import pytest

from fitwright.quantity import Unit
from tests.support.codebase import physics_modules, public_functions
from tests.support.compare import source_keys as known_sources
from tests.support.docstrings import parameters, result_brackets, sections, source_keys

FUNCTIONS = dict(found for module in physics_modules() for found in public_functions(module))
# A guard only raises; every other function computes something, and somebody published how.
FORMULAS = {
    name: function
    for name, function in FUNCTIONS.items()
    if typing.get_type_hints(function)["return"] is not type(None)
}
each_function = pytest.mark.parametrize(
    "function", [pytest.param(f, id=name) for name, f in FUNCTIONS.items()]
)


each_formula = pytest.mark.parametrize("function", [pytest.param(f, id=name) for name, f in FORMULAS.items()])


def units_in(annotation):
    """Unit symbols in an annotation, also inside a union or a tuple."""
    if typing.get_origin(annotation) is typing.Annotated:
        return {note.symbol for note in annotation.__metadata__ if isinstance(note, Unit)}
    return {symbol for inner in typing.get_args(annotation) for symbol in units_in(inner)}


def test_there_are_functions_to_look_at():
    assert len(FUNCTIONS) > 10


@each_function
def test_parameters_are_those_of_the_signature(function):
    documented = [parameter.name for parameter in parameters(function.__doc__ or "")]
    assert documented == list(inspect.signature(function).parameters)


@each_function
def test_documented_units_are_those_of_the_annotations(function):
    hints = typing.get_type_hints(function, include_extras=True)
    for parameter in parameters(function.__doc__):
        missing = units_in(hints[parameter.name]) - set(parameter.brackets)
        assert not missing, f"{parameter.name}: the header line lacks {sorted(missing)} in square brackets"


@each_formula
def test_the_documented_unit_of_the_result_is_that_of_the_annotation(function):
    hints = typing.get_type_hints(function, include_extras=True)
    missing = units_in(hints["return"]) - set(result_brackets(function.__doc__))
    assert not missing, f"the Returns section lacks {sorted(missing)} in square brackets"


@each_formula
def test_it_says_what_comes_back(function):
    assert "Returns" in sections(function.__doc__)


@each_formula
def test_at_least_one_source_and_all_of_them_known(function):
    cited = source_keys(function.__doc__)
    assert cited, "no [key] under References"
    assert set(cited) <= known_sources(), f"not in docs/sources.toml: {set(cited) - known_sources()}"
