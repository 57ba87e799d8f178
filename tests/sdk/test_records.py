"""Records made quickly are the records they were: equal, hashed, frozen, copied and pickled as dataclasses are."""

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace
from inspect import signature

import pytest
from casewright.sdk.geometry import Cylinder, Place
from casewright.sdk.model import Feature, Part, Term
from casewright.sdk.records import quickly_made


@dataclass(frozen=True, slots=True)
class Plain:
    a: int
    b: str = "b"
    c: list[int] = field(default_factory=list)


@quickly_made
@dataclass(frozen=True, slots=True)
class Quick:
    a: int
    b: str = "b"
    c: list[int] = field(default_factory=list)


@pytest.mark.parametrize(
    ("given", "named"), [((1,), {}), ((1, "x"), {}), ((), {"a": 1, "c": [2]}), ((1,), {"b": "y"}), ((1, "z", [3]), {})]
)
def test_made_as_the_dataclass_makes_it(given: tuple[object, ...], named: dict[str, object]) -> None:
    quick, plain = Quick(*given, **named), Plain(*given, **named)  # type: ignore[arg-type]
    assert type(quick) is Quick
    assert [getattr(quick, f.name) for f in fields(quick)] == [getattr(plain, f.name) for f in fields(plain)]
    assert repr(quick) == repr(plain).replace("Plain", "Quick")
    assert quick == Quick(*given, **named)  # type: ignore[arg-type]
    for again in (copy.copy(quick), copy.deepcopy(quick), pickle.loads(pickle.dumps(quick)), replace(quick)):
        assert type(again) is Quick
        assert again == quick


@pytest.mark.parametrize(("given", "named"), [((), {}), ((1, 2, 3, 4), {}), ((1,), {"d": 1}), ((1,), {"a": 1})])
def test_refused_as_the_dataclass_refuses_it(given: tuple[object, ...], named: dict[str, object]) -> None:
    for kind in (Plain, Quick):
        with pytest.raises(TypeError):
            kind(*given, **named)  # type: ignore[arg-type]


def test_defaults_are_made_anew_and_nothing_may_change() -> None:
    assert Quick(1).c is not Quick(1).c
    quick = Quick(1)
    with pytest.raises(FrozenInstanceError):
        quick.a = 2  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del quick.a  # type: ignore[misc]
    with pytest.raises((AttributeError, TypeError)):
        quick.d = 2  # type: ignore[attr-defined]
    assert not hasattr(quick, "__dict__")


def test_a_class_derived_from_it_keeps_its_own_kind() -> None:
    class Derived(Quick):
        pass

    assert type(Derived(1)) is Derived
    assert Derived(1, c=[5]).c == [5]


def test_records_of_the_model_hash_and_tell_their_fields() -> None:
    assert len({Term("a", 1), Term("a", 1), Term("a", 2)}) == 2
    assert hash(Place((0, 0, 0), 1, 2, 3)) == hash(Place((0, 0, 0), 1, 2, 3))
    assert list(signature(Cylinder).parameters) == ["mouth", "into", "diameter", "depth"]
    assert list(signature(Part).parameters) == [f.name for f in fields(Part)]
    assert Feature("hole", "a", 1).boxes == ()


def test_what_it_is_not_for() -> None:
    @dataclass(slots=True)
    class Open:
        a: int

    @dataclass(frozen=True)
    class Loose:
        a: int

    @dataclass(frozen=True, slots=True)
    class Busy:
        a: int

        def __post_init__(self) -> None: ...

    @dataclass(frozen=True, slots=True)
    class Heir(Quick):
        d: int = 0

    for kind in (Open, Loose, Busy, Heir):
        with pytest.raises(TypeError):
            quickly_made(kind)
