"""Modules that load when they are first used, so that help and slips are answered at once."""

from __future__ import annotations

import sys
from importlib.util import LazyLoader, find_spec, module_from_spec
from types import ModuleType


def later(name: str) -> ModuleType:
    """Return a module that loads when something of it is first used.

    Args:
        name: full name of the module.

    Raises:
        ModuleNotFoundError: when there is no such module.
    """
    if name in sys.modules:
        return sys.modules[name]
    spec = find_spec(name)
    if spec is None or spec.loader is None:
        raise ModuleNotFoundError(name)
    spec.loader = LazyLoader(spec.loader)
    module = module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module
