"""Validating what a plugin is and registers, before any of it is used: faults in words for its author."""

import inspect
import json
from collections.abc import Mapping
from dataclasses import fields
from typing import Any, get_args, get_type_hints

from casewright.sdk import hookspecs
from casewright.sdk.catalogue_rules import ID, LEAST, faults
from casewright.sdk.fields import Choice, Count, Flag, Flaw, Length, Number, Text
from casewright.sdk.hookspecs import PROJECT
from casewright.sdk.materials import Catalogue
from casewright.sdk.methods import CureGenerator, DoorStyle, HouseStyle, JointMethod, MeetingKind, Method
from casewright.sdk.places import defined_at
from casewright.sdk.sources import SOURCES
from casewright.sdk.spelling import nearest_word
from casewright.sdk.units import exact_text
from casewright.sdk.versions import MIGRATION, SDK_VERSION, accepts, format_range
from marshmallow import Schema, ValidationError, missing
from marshmallow import fields as schema_fields

STRICT = (Choice, Count, Flag, Length, Number, Text)
"""The fields an option schema is made of: what JSON says is what is taken, and OpenAPI says the same."""


class FaultyPluginError(Exception):
    """What is wrong with a plugin, in words for its author, and where in its source that stands."""

    def __init__(self, fault: str, at: str = "") -> None:
        super().__init__(f"{at}: {fault}" if at else fault)
        self.at = at


def validate_plugin(plugin: object) -> None:
    """Refuse a plugin without hooks, with a hook there is not, or whose hook takes parameters.

    Versions of pluggy differ in how they fill defaults, so a parameter could change an answer.
    """
    if hasattr(plugin, "SDK"):
        _validate_version("the plugin", plugin.SDK, defined_at(plugin))
    names = [n for n in dir(plugin) if n.startswith("casewright_")]
    if not names:
        raise FaultyPluginError("it implements no hook; decorate a function named casewright_… with @hookimpl")
    for name in names:
        if not hasattr(hookspecs, name):
            near = nearest_word(name, _hooks())
            words = f"; perhaps {near}" if near else f"; hooks are {', '.join(_hooks())}"
            raise FaultyPluginError(f"{name} is no hook{words}", defined_at(getattr(plugin, name)))
        implementation = getattr(plugin, name)
        if not callable(implementation):
            raise FaultyPluginError(f"{name} is not a function")
        at = defined_at(implementation)
        parameters = inspect.signature(implementation).parameters
        if parameters:
            fault = f"{name}({', '.join(map(str, parameters.values()))}) takes parameters; a hook takes none"
            raise FaultyPluginError(fault, at)
        if getattr(implementation, f"{PROJECT}_impl", None) is None:
            raise FaultyPluginError(f"{name} is not decorated with @hookimpl; write @hookimpl above it", at)


def _hooks() -> list[str]:
    return [name for name in dir(hookspecs) if name.startswith("casewright_")]


def validate_answer(plugin: object, hook: str, answer: object) -> tuple[object, ...]:
    """Return what a hook answered as a tuple. Refuses what is no list or tuple."""
    if answer is None:
        return ()
    if isinstance(answer, (list, tuple)):
        return tuple(answer)
    name = type(answer).__name__
    shown = (
        f"{name}, which is no tuple; return ({name}(),)"
        if hasattr(answer, "id")
        else f"{name} {_short(answer)}, which is no tuple"
    )
    fault = f"{hook} answered {shown}"
    raise FaultyPluginError(fault, defined_at(getattr(plugin, hook)))


def _short(value: object) -> str:
    words = repr(value)
    return words if len(words) <= 60 else f"{words[:60]}…"


def validate_method(method: object, kind: type, hook: str, at: str = "") -> None:
    """Refuse what a hook, which stands at `at`, answered where it is no usable method of the kind that it registers."""
    if isinstance(method, type) and issubclass(method, kind):
        name = method.__name__
        raise FaultyPluginError(f"{hook} answered the class {name}, not a {kind.__name__}; write {name}()", at)
    if not isinstance(method, kind):
        raise FaultyPluginError(f"{hook} answered {_short(method)}, which is not a {kind.__name__}", at)
    try:
        _validate_parts(method, hook)
    except FaultyPluginError as error:
        ours = type(method).__module__.startswith("casewright.sdk")  # a record of the SDK's: it is written at the hook
        raise error if error.at else FaultyPluginError(str(error), at if ours else defined_at(method)) from None


def _validate_parts(method: Any, hook: str) -> None:
    for attribute in ("id", "title"):
        value = getattr(method, attribute, None)
        if not isinstance(value, str) or not value:
            raise FaultyPluginError(f"{type(method).__name__}.{attribute} must be text")
    name = getattr(method, "id", "")
    if not ID.fullmatch(name):
        raise FaultyPluginError(f"the id {name!r} must be letters, digits, dot, dash and underscore, as in lap-joint")
    if hasattr(method, "sdk"):
        _validate_version(method.id, method.sdk)
    if isinstance(method, Method):
        _validate_options(method)
    if isinstance(method, JointMethod):
        _validate_kinds(method, hook)
    if isinstance(method, HouseStyle):
        _validate_defaults(method)
    if isinstance(method, CureGenerator):
        _validate_codes(method)


def _validate_version(name: str, sdk: object, at: str = "") -> None:
    try:
        good = accepts(sdk)
    except ValueError as error:
        raise FaultyPluginError(f"{name}: {error}", at) from None
    if not good:
        here = f"this is SDK {SDK_VERSION[0]}.{SDK_VERSION[1]}. {MIGRATION} says what changed"
        raise FaultyPluginError(f"{name} was written for SDK {format_range(sdk)}; {here}", at)


def _validate_options(method: Method) -> None:
    """Refuse options that could not be read strictly or not be published as a JSON Schema."""
    if not (isinstance(method.options, type) and issubclass(method.options, Schema)):
        raise FaultyPluginError(f"{method.id}.options is {method.options!r}, which is not a schema class")
    for name, option in method.options().fields.items():
        if not isinstance(option, STRICT):
            raise FaultyPluginError(
                f"{method.id} option {name!r} is a {_kind(option)}, which takes more than it says; use a field of "
                f"casewright.sdk.fields: {', '.join(kind.__name__ for kind in STRICT)}"
            )
        if not isinstance(option.metadata, Mapping):
            raise FaultyPluginError(f'{method.id} option {name!r} has metadata that is no mapping; write about="…"')
        if not isinstance(option.metadata.get("description", ""), str):
            raise FaultyPluginError(f"{method.id} option {name!r} has a description that is not text")
        if name == ("style" if isinstance(method, DoorStyle) else "method"):
            raise FaultyPluginError(
                f"{method.id} option {name!r} is the key by which a job names it; choose another name"
            )
        fault = _bounds_fault(option) or _default_fault(option)
        if fault:
            raise FaultyPluginError(f"{method.id} option {name!r} {fault}")


def _bounds_fault(option: schema_fields.Field[Any]) -> str:
    """Return what is wrong with the bounds of an option, and what to write; empty where nothing is."""
    if not isinstance(option, (Count, Length, Number, Text)):
        return ""
    if isinstance(option, Length):
        for name in ("least", "most"):
            fault = _length_fault(getattr(option, name))
            if fault:
                return f"has the {name} {fault}"
    return f"takes nothing: least is {option.least}, most {option.most}" if option.least > option.most else ""


def _length_fault(value: object) -> str:
    """Return what keeps a value from being a length that an option may hold; empty where nothing does."""
    if type(value) is not int:
        return f"{value!r}, which is not whole nm; write mm(…)"
    if 0 < abs(value) < LEAST:
        return f"{exact_text(value)}; write mm({value}) if {value} mm were meant"
    return ""


def _default_fault(option: schema_fields.Field[Any]) -> str:
    """Return why an option would not take its own default; empty where it would, or has none."""
    default = option.load_default
    if default is None or default is missing or callable(default):
        return ""
    if isinstance(option, Length):
        fault = _length_fault(default)
        if fault:
            return f"has the default {fault}"
        low, high = exact_text(option.least), exact_text(option.most)
        return (
            ""
            if option.least <= default <= option.most
            else f"has a default beyond its bounds: {exact_text(default)} is not from {low} to {high}"
        )
    try:
        option.deserialize(default)
    except ValidationError as error:
        rules = [flaw.rule for flaw in error.messages if isinstance(flaw, Flaw)]
        return f"has the default {default!r}, which it does not take; it takes {', '.join(rules)}"
    return ""


def _kind(option: schema_fields.Field[Any]) -> str:
    return f"{type(option).__module__.partition('.')[0]} {type(option).__name__}"


def _validate_defaults(style: HouseStyle) -> None:
    if not isinstance(style.defaults, Mapping):
        raise FaultyPluginError(f"{style.id}.defaults is {style.defaults!r}, which is not a mapping")
    try:
        json.dumps(dict(style.defaults), allow_nan=False)
    except (TypeError, ValueError) as error:
        raise FaultyPluginError(f"{style.id}.defaults are not JSON values: {error}") from None


def _validate_kinds(method: JointMethod, hook: str) -> None:
    known = get_args(MeetingKind)
    if not isinstance(getattr(method, "does", None), (frozenset, set, tuple)):
        fault = f'{type(method).__name__}.does must name kinds of meeting, such as frozenset({{"corner"}})'
        raise FaultyPluginError(f"{fault}; kinds are {', '.join(known)}")
    strange = sorted(str(kind) for kind in method.does if kind not in known)
    if strange:
        raise FaultyPluginError(f"{method.id} does {', '.join(strange)}; kinds of meeting are {', '.join(known)}")
    if not method.does:
        raise FaultyPluginError(f"{method.id} names no kind of meeting in `does`")
    if hook == "casewright_box_methods" and "box" not in method.does:
        raise FaultyPluginError(f"{method.id} is registered for drawer boxes but does no `box` meeting")


def _validate_codes(generator: CureGenerator) -> None:
    codes = getattr(generator, "codes", None)
    if not isinstance(codes, frozenset) or not all(isinstance(code, str) and code for code in codes):
        raise FaultyPluginError(f"{generator.id}.codes is {codes!r}, which is not a frozenset of codes of checks")
    why = generator.why_none
    if not isinstance(why, Mapping) or not all(isinstance(word, str) for row in why.items() for word in row):
        raise FaultyPluginError(f"{generator.id}.why_none is {why!r}, which gives no text by code")
    if not codes and not why:
        raise FaultyPluginError(f"{generator.id} names no code in `codes`")


def merge_catalogues(first: Catalogue, second: object, at: str = "") -> Catalogue:
    """Return both catalogues as one. Refuses what is no catalogue, strays and lies in it, and ids taken already.

    `at` is where the hook stands that answered the second.
    """
    if not isinstance(second, Catalogue):
        raise FaultyPluginError(f"casewright_catalogue answered {_short(second)}, which is not a Catalogue", at)
    merged: dict[str, Any] = {}
    kinds = get_type_hints(Catalogue)
    for f in fields(Catalogue):
        kind = get_args(kinds[f.name])[0]
        entries = getattr(second, f.name)
        if not isinstance(entries, tuple):
            raise FaultyPluginError(f"catalogue {f.name} is a {type(entries).__name__}, not a tuple", at)
        for entry in entries:
            if not isinstance(entry, kind):
                raise FaultyPluginError(f"catalogue {f.name} holds {_short(entry)}, which is not a {kind.__name__}", at)
        both = (*getattr(first, f.name), *entries)
        ids = [getattr(entry, "id", None) or entry.code for entry in both]
        twice = sorted({i for i in ids if ids.count(i) > 1})
        if twice:
            raise FaultyPluginError(f"catalogue {f.name} ids taken already: {', '.join(twice)}", at)
        merged[f.name] = both
    known = {*SOURCES, *(one.code for one in first.sources)}
    taken = sorted(one.code for one in second.sources if one.code in known)
    if taken:
        raise FaultyPluginError(f"catalogue sources taken already: {', '.join(taken)}", at)
    fault = next(faults(second, known), None)
    if fault:
        raise FaultyPluginError(fault, at)
    return Catalogue(**merged)
