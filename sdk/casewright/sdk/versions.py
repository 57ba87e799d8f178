"""Which versions of this SDK a method was written for.

A method says so in `sdk`: a whole number n stands for every n.x, and a pair of (breaking, additive) versions for
all from the first up to, not including, the second: `((2, 0), (3, 0))`. Within one breaking version nothing that a
plugin may rely on is taken away; what will be is listed in `casewright.sdk.deprecations`.
"""

Version = tuple[int, int]
SdkRange = int | tuple[Version, Version]

SDK_VERSION: Version = (2, 0)
"""Version of what this package promises: (breaking, additive)."""

MIGRATION = "/docs/migration"
"""Page of the service that says what a breaking version changed, and what to write instead."""

__all__ = ["MIGRATION", "SDK_VERSION", "SdkRange", "Version", "accepts", "bounds", "format_range"]


def bounds(sdk_range: object) -> tuple[Version, Version]:
    """Return the first version that will do and the first that will not. Raises `ValueError` for anything else."""
    if type(sdk_range) is int and sdk_range >= 0:
        return (sdk_range, 0), (sdk_range + 1, 0)
    pair = isinstance(sdk_range, tuple) and len(sdk_range) == 2 and all(map(_is_version, sdk_range))
    if isinstance(sdk_range, tuple) and pair and sdk_range[0] < sdk_range[1]:
        return sdk_range
    raise ValueError(f"sdk is {sdk_range!r}; write 2, or a range such as ((2, 0), (3, 0))")


def accepts(sdk_range: object, have: Version = SDK_VERSION) -> bool:
    """Return whether version `have` is in the range. Raises `ValueError` for what is no range."""
    low, high = bounds(sdk_range)
    return low <= have < high


def format_range(sdk_range: object) -> str:
    """Return the range in words: `1.0 up to, not including, 2.0`."""
    low, high = bounds(sdk_range)
    return f"{low[0]}.{low[1]} up to, not including, {high[0]}.{high[1]}"


def _is_version(value: object) -> bool:
    return isinstance(value, tuple) and len(value) == 2 and all(type(n) is int and n >= 0 for n in value)
