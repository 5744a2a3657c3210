"""How the kernels of the circuit are compiled."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from numba import njit

_Kernel = TypeVar("_Kernel", bound=Callable[..., Any])
_OUTER: dict[str, Any] = {"cache": True, "nogil": True, "error_model": "numpy"}
_INNER: dict[str, Any] = {**_OUTER, "cache": False, "no_cpython_wrapper": True, "no_cfunc_wrapper": True}


def outer(kernel: _Kernel) -> _Kernel:
    """Compile what Python calls.

    Parameters
    ----------
    kernel : callable
        The kernel.

    Returns
    -------
    callable
        It, compiled when it is first called.

    References
    ----------
    [kelley2003] functions that Newton's method evaluates
    """
    return _compiled(kernel, _OUTER)


def inner(kernel: _Kernel) -> _Kernel:
    """Compile what only other kernels call: no entries for Python, which would take every array apart again.

    Parameters
    ----------
    kernel : callable
        The kernel.

    Returns
    -------
    callable
        It, compiled with the first kernel that calls it.

    References
    ----------
    [kelley2003] functions that Newton's method evaluates
    """
    return _compiled(kernel, _INNER)


def _compiled(kernel: _Kernel, options: dict[str, Any]) -> _Kernel:
    compiled: Any = njit(**options)(kernel)
    found: _Kernel = compiled
    return found
