"""stacklint checks plans of lumber stacks and kiln charges that are written as plain text.

``check`` is the whole of it, a pure function: a text in, a ``CheckedPlan`` out, whose ``findings`` say what is wrong,
where, and what to do. What the names here stand for is imported when it is first used, so that ``import stacklint``
costs next to nothing.
"""

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from stacklint.checked import CheckedPlan, CheckedStack, Waived
    from stacklint.checking import check
    from stacklint.findings import Finding, Level
    from stacklint.where import Where

__version__ = "0.1.0"
__all__ = ["CheckedPlan", "CheckedStack", "Finding", "Level", "Waived", "Where", "__version__", "check"]

_HOMES = MappingProxyType(
    {
        "CheckedPlan": "stacklint.checked",
        "CheckedStack": "stacklint.checked",
        "Finding": "stacklint.findings",
        "Level": "stacklint.findings",
        "Waived": "stacklint.checked",
        "Where": "stacklint.where",
        "check": "stacklint.checking",
    }
)
"""The module of each name."""


def __getattr__(name: str) -> object:
    """Imports what a name stands for (PEP 562)."""
    home = _HOMES.get(name)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    value: object = getattr(import_module(home), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
