"""JSON Merge Patch (RFC 7396): what a patch says replaces, `null` takes away, objects go deeper, arrays are wholes."""

from typing import Any


def merged(target: Any, patch: Any) -> Any:
    """Return `target` with a patch applied (RFC 7396, section 2); neither is changed.

    Both are JSON values. The answer shares what the patch left alone with `target`.
    """
    if not isinstance(patch, dict):
        return patch
    out = dict(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None:
            out.pop(name, None)
        else:
            out[name] = merged(out.get(name), value)
    return out
