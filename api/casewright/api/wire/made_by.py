"""What made a plan, and the fingerprint of a job: same job and same software, same bytes."""

import hashlib
from functools import lru_cache
from importlib.metadata import PackageNotFoundError, version
from typing import TYPE_CHECKING, Any

import orjson
from casewright.sdk.versions import SDK_VERSION

if TYPE_CHECKING:
    from casewright.sdk.loader import Registry  # with the whole SDK, which naming the version does without

SOFTWARE = "casewright"


@lru_cache(maxsize=1)
def software_version() -> str:
    """Return the version of this software as installed."""
    try:
        return version(SOFTWARE)
    except PackageNotFoundError:
        return "0"


def made_by(registry: "Registry") -> dict[str, Any]:
    """Return the software, its version, and each plugin that is loaded."""
    loaded = [p for p in registry.plugins if p.status == "loaded"]
    return {
        "software": SOFTWARE,
        "version": software_version(),
        "sdk": f"{SDK_VERSION[0]}.{SDK_VERSION[1]}",
        "plugins": [{"name": p.name, "distribution": p.distribution, "version": p.version} for p in loaded],
    }


def fingerprint(document: Any, registry: "Registry") -> str:
    """Return the SHA-256 (hex) of the document in canonical form, the software and the plugins.

    Canonical: keys sorted, no white space. The order of keys never decides anything in a plan.
    """
    canonical = orjson.dumps([document, made_by(registry)], option=orjson.OPT_SORT_KEYS)
    return hashlib.sha256(canonical).hexdigest()
