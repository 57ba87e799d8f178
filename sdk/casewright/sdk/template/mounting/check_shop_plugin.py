"""The contract every mounting keeps."""

from typing import ClassVar

from casewright.sdk.testing import MountingContract

import shop_plugin


class TestShopPlugin(MountingContract):
    """Schema, determinism and dry fit over generated jobs; what hanging turns on is what the parts are."""

    plugin: ClassVar[object] = shop_plugin
    method: ClassVar[str] = "shop-plugin"
