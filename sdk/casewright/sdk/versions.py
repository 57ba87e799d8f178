"""Which versions of this SDK a method was written for.

A method says so in `sdk`: a whole number n stands for every n.x, and a pair of (breaking, additive) versions for
all from the first up to, not including, the second: `((1, 0), (2, 0))`. Within one breaking version nothing that a
plugin may rely on is taken away; what will be is listed in `casewright.sdk.deprecations`.
"""

Version = tuple[int, int]
Wanted = int | tuple[Version, Version]

SDK_VERSION: Version = (1, 0)
"""Version of what this package promises: (breaking, additive)."""

__all__ = ["SDK_VERSION", "Version", "Wanted", "accepts", "bounds", "told"]


def bounds(wanted: object) -> tuple[Version, Version]:
    """Return the first version that will do and the first that will not. Raises `ValueError` for anything else."""
    if type(wanted) is int and wanted >= 0:
        return (wanted, 0), (wanted + 1, 0)
    if isinstance(wanted, tuple) and len(wanted) == 2 and all(map(_is_version, wanted)) and wanted[0] < wanted[1]:
        return wanted
    raise ValueError(f"sdk is {wanted!r}; write 1, or a range such as ((1, 0), (2, 0))")


def accepts(wanted: object, have: Version = SDK_VERSION) -> bool:
    """Return whether version `have` is in the range. Raises `ValueError` for what is no range."""
    low, high = bounds(wanted)
    return low <= have < high


def told(wanted: object) -> str:
    """Return the range in words: `1.0 up to, not including, 2.0`."""
    low, high = bounds(wanted)
    return f"{low[0]}.{low[1]} up to, not including, {high[0]}.{high[1]}"


def _is_version(value: object) -> bool:
    return isinstance(value, tuple) and len(value) == 2 and all(type(n) is int and n >= 0 for n in value)
