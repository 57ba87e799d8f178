"""The contract every house style keeps."""

from collections.abc import Mapping
from typing import Any, ClassVar

from casewright.sdk.testing import HouseStyleContract

import shop_plugin


class TestShopPlugin(HouseStyleContract):
    """Its defaults are JSON, and a job that names it is planned with them."""

    plugin: ClassVar[object] = shop_plugin
    style: ClassVar[str] = "shop-plugin"
    job: ClassVar[Mapping[str, Any]] = {
        "units": "mm",
        "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
        "house": {"style": "shop-plugin"},
        "cabinets": [{"id": "bay", "width": 600, "height": 700, "depth": 300, "case": {"material": "ply"}}],
    }
