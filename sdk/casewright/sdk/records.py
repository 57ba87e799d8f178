"""Frozen records made quickly.

A frozen dataclass with slots sets each field through `object.__setattr__`, which costs several times what a plain
assignment does, and a plan is made of some thousands of records. `quickly_made` gives such a class an `__init__` that
assigns plainly while the new object, which nobody else has seen, is of a twin class with the same slots and no guard,
and then makes it what it is. Nothing else of the class changes: it stays frozen, compared, hashed and copied as before.
"""

from collections.abc import Callable
from dataclasses import MISSING, Field, fields
from typing import Any, TypeVar

__all__ = ["quickly_made"]

Record = TypeVar("Record")


_BECOME = object.__dict__["__class__"].__set__
"""Gives an object another class, past any `__setattr__` of its own."""


def quickly_made(cls: type[Record]) -> type[Record]:
    """Give a frozen dataclass with slots a quick `__init__`; use it as the decorator above `@dataclass`.

    Raises `TypeError` for a class that is not frozen with slots, has a `__post_init__`, or inherits fields.
    """
    made: Any = cls
    if "__slots__" not in cls.__dict__ or not made.__dataclass_params__.frozen:
        raise TypeError(f"{cls.__name__} is no frozen dataclass with slots")
    if hasattr(cls, "__post_init__") or cls.__bases__ != (object,):
        raise TypeError(f"{cls.__name__} has a __post_init__ or a base, which a quick __init__ would pass over")
    every = fields(made)
    twin = type(f"_{cls.__name__}Open", (), {"__slots__": tuple(f.name for f in every), "__module__": cls.__module__})
    slow = cls.__init__
    names = {"_class": cls, "_twin": twin, "_become": _BECOME, "_slow": slow, "_missing": MISSING}
    init = _init(every, names)
    init.__qualname__ = f"{cls.__qualname__}.__init__"
    init.__annotations__ = slow.__annotations__
    init.__doc__ = slow.__doc__
    made.__init__ = init
    return cls


def _init(every: tuple[Field[Any], ...], names: dict[str, Any]) -> Callable[..., None]:
    """Return the `__init__` of a class with these fields; `names` are what its text refers to."""
    head, given = ["self"], {}
    for f in every:
        if not f.init or f.kw_only:
            raise TypeError(f"{f.name} is not a plain field")
        given[f.name] = f.name
        if f.default is not MISSING:
            names[f"_default_{f.name}"] = f.default
            head.append(f"{f.name}=_default_{f.name}")
        elif f.default_factory is not MISSING:
            names[f"_make_{f.name}"] = f.default_factory
            head.append(f"{f.name}=_missing")
            given[f.name] = f"_make_{f.name}() if {f.name} is _missing else {f.name}"
        else:
            head.append(f.name)
    lines = [
        f"def __init__({', '.join(head)}):",
        "    if self.__class__ is not _class:  # a class derived from it",
        f"        return _slow(self, {', '.join(given.values())})",
        "    _become(self, _twin)",
        *(f"    self.{name} = {value}" for name, value in given.items()),
        "    self.__class__ = _class",
    ]
    exec("\n".join(lines), names)
    made: Callable[..., None] = names["__init__"]
    return made
