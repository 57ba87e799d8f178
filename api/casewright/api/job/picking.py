"""Reading an object that picks a method by id and holds its options, which the method's own schema loads."""

from collections.abc import Collection, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from typing import Any

from casewright.api.job.fields import Branch, Pick
from casewright.api.job.problems import Findings, advice
from casewright.api.job.reading import UNREAD, ObjectReader, Reader, note, unknown
from casewright.sdk.errors import PluginFaultError
from casewright.sdk.memory import is_want_of_memory
from casewright.sdk.spelling import nearest_word
from marshmallow import EXCLUDE, Schema, ValidationError, fields


@dataclass(frozen=True, slots=True)
class Picked:
    """A method as the document picked it: `raw` options as written, `options` as the method's schema loads them."""

    method: str | None
    raw: Mapping[str, Any]
    options: Mapping[str, Any]
    common: Mapping[str, Any]
    pointer: str


class PickReader(Reader):
    """Reads an object that picks a method."""

    def __init__(self, field: Pick, common: ObjectReader | None) -> None:
        self.field, self.common = field, common
        self.schemas = {i: branch.options(unknown=EXCLUDE) for i, branch in field.branches.items()}
        self.option_keys = {i: _option_keys(schema) for i, schema in self.schemas.items()}
        self.common_keys: Mapping[str, Reader] = {} if common is None else common.fields
        self._unset: dict[str, Mapping[str, Any]] = {}

    def read(self, value: Any, pointer: str, findings: Findings) -> Any:
        """Return a `Picked`."""
        field, tag = self.field, self.field.tag
        if not isinstance(value, dict):
            near = nearest_word(value, field.branches) if isinstance(value, str) else None
            shape = f'Write {{"{tag}": "{near or "…"}"}}'
            fix = f"{shape}." if near else advice("", field.branches, verb=f"{shape} with")
            findings.add(pointer, f"an object that picks a {field.what}", value, fix)
            return UNREAD
        method = value.get(tag)
        if method is None and tag not in value and self.common is not None:
            strange = [key for key in value if key not in self.common_keys]
            if strange:
                self._refuse_options(strange, value, pointer, findings)
                return UNREAD
            return Picked(None, {}, {}, self.common.read(value, pointer, findings), pointer)
        if not isinstance(method, str) or method not in field.branches:
            self._refuse_method(value, pointer, findings)
            return UNREAD
        raw = {k: v for k, v in value.items() if k != tag and k not in self.common_keys}
        common = {k: v for k, v in value.items() if k in self.common_keys}
        loaded = {} if self.common is None else self.common.read(common, pointer, findings)
        options = self.load(method, raw, pointer, findings)
        return UNREAD if options is UNREAD else Picked(method, raw, options, loaded, pointer)

    def load(self, method: str, raw: Mapping[str, Any], pointer: str, findings: Findings) -> Any:
        """Return the method's options with its defaults, or `UNREAD`. Raises `PluginFaultError`."""
        if not raw and method in self._unset:
            return copy(self._unset[method])
        keys = self.option_keys[method]
        good = True
        for key in raw:
            if key not in keys:
                unknown(key, [*keys, *self.common_keys, self.field.tag], {*raw, self.field.tag}, pointer, findings)
                good = False
        for key, field in keys.items():
            if field.required and key not in raw:
                findings.missing(f"{pointer}/{key}", f'The {self.field.what} "{method}" needs "{key}".')
                good = False
        branch = self.field.branches[method]
        before = len(findings.schema)
        try:
            options = self.schemas[method].load(raw)
        except ValidationError as error:
            messages: dict[str, Any] = error.normalized_messages()  # type: ignore[no-untyped-call]
            note({k: v for k, v in messages.items() if k in raw or k == "_schema"}, raw, pointer, findings)
            return UNREAD if len(findings.schema) > before or not good else {}
        except Exception as error:  # an option schema is plugin code
            if is_want_of_memory(error):
                raise
            raise _fault(branch, f"its option schema raised {type(error).__name__}") from error
        if not isinstance(options, Mapping):
            raise _fault(branch, "its option schema does not load to a mapping")
        if not raw and good:
            self._unset[method] = copy(options)
        return options if good else UNREAD

    def _refuse_options(
        self, options: Sequence[str], value: Mapping[str, Any], pointer: str, findings: Findings
    ) -> None:
        """Note options that stand beside no method: those of some, or keys that none reads."""
        tag, known = self.field.tag, self._taking(options)
        if not known:
            every = dict.fromkeys(key for keys in self.option_keys.values() for key in keys)
            strange = next((key for key in options if key not in every), options[0])
            unknown(strange, [tag, *self.common_keys, *every], value, pointer, findings)
            return
        alone = ", ".join(self.common_keys)
        listed = ", ".join(known)
        fix = f'Write "{tag}" here too, also where the house names it, one of: {listed}; only {alone} stand without it.'
        rule = f"options beside the {self.field.what} that they are for"
        findings.add(f"{pointer}/{options[0]}", rule, value[options[0]], fix)

    def _taking(self, options: Collection[str]) -> list[str]:
        """Return the methods that have all of these options."""
        return [method for method, keys in self.option_keys.items() if set(options) <= keys.keys()]

    def _refuse_method(self, value: dict[str, Any], pointer: str, findings: Findings) -> None:
        tag, what, known = self.field.tag, self.field.what, self.field.branches
        fit = self._taking(value.keys() - {tag, *self.common_keys}) or [*known]
        if tag not in value:
            findings.missing(f"{pointer}/{tag}", advice("", fit, verb=f"Name a {what},"))
            return
        got = value[tag]
        near = nearest_word(got, known) if isinstance(got, str) else None
        findings.add(f"{pointer}/{tag}", f"a known {what}", got, advice(near or "", known if near else fit))


def _fault(branch: Branch, fault: str) -> PluginFaultError:
    """Return the error that names a branch's plugin and method."""
    return PluginFaultError(branch.plugin, branch.id, fault)


def _option_keys(schema: Schema) -> dict[str, fields.Field[Any]]:
    """Return the fields of an option schema by the key that stands in a document."""
    return {field.data_key or name: field for name, field in schema.load_fields.items()}
