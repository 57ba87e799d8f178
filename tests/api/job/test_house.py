"""A cabinet laid over its house: defaults < registered style < the job's house < the cabinet."""

from typing import Any

import pytest
from casewright.api.job.document import read_job
from casewright.sdk import model
from casewright.sdk.errors import PluginFaultError, UnusableJobError
from casewright.sdk.hookspecs import hookimpl
from casewright.sdk.loader import Registry, load
from casewright.sdk.methods import HouseStyle

MM = 1_000_000


class Shop:
    """A plugin that registers house styles."""

    @hookimpl
    def casewright_house_styles(self) -> list[HouseStyle]:
        return [
            HouseStyle("plain", "Plain work", {"depth": "250 mm", "case": {"top_inset": "12 mm", "shelf_setback": 3}}),
            HouseStyle("broken", "Cannot be read", {"depth": "deep"}),
        ]


@pytest.fixture(scope="module")
def styled(registry: Registry) -> Registry:
    plugins = [(p.name, __import__("importlib").import_module(_module(p.name))) for p in registry.plugins]
    return load(discover="none", extra=[*plugins, ("shop", Shop())])


def _module(name: str) -> str:
    from importlib.metadata import entry_points

    return next(iter(entry_points(group="casewright.plugins", name=name))).value


def one(job: dict[str, Any], registry: Registry) -> model.Cabinet:
    return read_job(job, registry).cabinets[0]


def test_each_layer_wins_over_the_one_below(small: dict[str, Any], styled: Registry) -> None:
    del small["cabinets"][0]["case"]["top_inset"]
    del small["cabinets"][0]["depth"]
    small["house"] = {"style": "plain", "case": {"shelf_setback": 5}}
    job = read_job(small, styled)
    cabinet = job.cabinets[0]
    assert (cabinet.depth, cabinet.case.top_inset, cabinet.case.shelf_setback) == (250 * MM, 12 * MM, 5 * MM)
    assert cabinet.case.bottom_inset == 20 * MM
    origins = job.origins
    assert origins["/cabinets/0/depth"] == "house-style"
    assert origins["/cabinets/0/case/top_inset"] == "house-style"
    assert origins["/cabinets/0/case/shelf_setback"] == "house"
    assert origins["/cabinets/0/case/pins"] == "default"
    assert "/cabinets/0/case/bottom_inset" not in origins


def test_options_of_the_same_method_merge_and_of_another_do_not(small: dict[str, Any], registry: Registry) -> None:
    small["house"] = {"case": {"corner": {"method": "housed-groove", "depth": 5}}}
    assert one(small, registry).case.corner.options["depth"] == 5 * MM
    small["cabinets"][0]["case"]["corner"] = {"method": "rabbet"}
    corner = one(small, registry).case.corner
    assert corner.method == "rabbet"
    assert corner.pointer == "/cabinets/0/case/corner"


def test_null_takes_away_what_the_house_gives(small: dict[str, Any], registry: Registry) -> None:
    small["house"] = {"case": {"back": {"inset": 19}}, "face_frame": {"material": "oak"}}
    assert one(small, registry).face_frame is not None
    small["cabinets"][0] |= {"face_frame": None}
    small["cabinets"][0]["case"]["back"] = None
    cabinet = one(small, registry)
    assert (cabinet.face_frame, cabinet.case.back) == (None, None)


def test_a_cabinet_may_change_a_shared_door_field_and_keep_the_style(small: dict[str, Any], registry: Registry) -> None:
    small["house"] = {"doors": {"style": "slab", "overlay": 10, "pull": {"item": "bar-96", "from_end": 40}}}
    small["cabinets"][0]["doors"] = {"pull": {"item": "knob-1"}}
    doors = one(small, registry).doors
    assert doors is not None
    assert doors.pull is not None
    assert (doors.style, doors.overlay, doors.pull.item, doors.pull.from_end) == ("slab", 10 * MM, "knob-1", 40 * MM)


def test_space_is_a_whole(small: dict[str, Any], registry: Registry) -> None:
    small["house"] = {"space": {"tiers": [{}, {}]}}
    assert one(small, registry).space.fixed_count == 1
    del small["cabinets"][0]["space"]
    space = one(small, registry).space
    assert [p.pointer for p in space.parts] == ["/house/space/tiers/0", "/house/space/tiers/1"]


def test_pounds_in_the_cabinet_replace_kilograms_of_the_house(small: dict[str, Any], registry: Registry) -> None:
    small["house"] = {"mounting": {"method": "bevel-cleat", "contents_kg": 40}}
    small["cabinets"][0]["mounting"] = {"contents_lb": 100}
    mounting = one(small, registry).mounting
    assert mounting is not None
    assert mounting.contents_kg == pytest.approx(45.359237)  # 1 lb = 0.45359237 kg exactly


def test_a_shared_field_without_any_style_is_named(small: dict[str, Any], registry: Registry) -> None:
    small["cabinets"][0]["doors"] = {"overlay": 10}
    with pytest.raises(UnusableJobError) as caught:
        read_job(small, registry)
    assert [p.pointer for p in caught.value.problems] == ["/cabinets/0/doors/style"]


def test_a_house_style_that_cannot_be_read_is_its_plugins_fault(small: dict[str, Any], styled: Registry) -> None:
    small["house"] = {"style": "broken"}
    with pytest.raises(PluginFaultError) as caught:
        read_job(small, styled)
    assert (caught.value.plugin, caught.value.method) == ("shop", "broken")


def test_the_order_of_keys_decides_nothing(small: dict[str, Any], registry: Registry) -> None:
    def turned(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: turned(inner) for key, inner in reversed(value.items())}
        return [turned(inner) for inner in value] if isinstance(value, list) else value

    assert read_job(turned(small), registry) == read_job(small, registry)
    assert list(read_job(turned(small), registry).materials) == list(read_job(small, registry).materials)


def test_a_base_of_the_house_is_for_the_cabinets_that_stand(small: dict[str, Any], registry: Registry) -> None:
    stands, hangs = {**small["cabinets"][0], "id": "low", "form": "base"}, small["cabinets"][0]
    small["house"] = {"base": {"kind": "plinth", "height": 100}}
    small["cabinets"] = [stands, hangs]
    low, high = read_job(small, registry).cabinets
    assert low.base is not None
    assert low.base.kind == "plinth"
    assert high.base is None
    hangs["base"] = {"kind": "feet", "height": 90}
    with pytest.raises(UnusableJobError) as caught:
        read_job(small, registry)
    assert [p.pointer for p in caught.value.problems] == ["/cabinets/1/base"]
