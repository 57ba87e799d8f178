"""The schema of a shop's own rates. Nothing has a default price or time: what is not given is not guessed."""

from casewright.api.job import limits
from casewright.api.job.fields import MapOf
from casewright.sdk.fields import Count, Number, OptionSchema, Text
from casewright.sdk.model.rates import TIMED_WORK
from marshmallow import fields


def money(about: str) -> Number:
    """Return a field for money in whole units; what is written in decimals is taken exactly."""
    return Number(most=limits.GREATEST_MONEY, allow_none=False, load_default=None, about=about)


class Minutes(OptionSchema):
    """Minutes for one operation of each kind."""


MINUTES: type[Minutes] = Minutes.from_dict(  # type: ignore[assignment]
    {
        kind: Number(most=100_000, about=f"{operation.title}; counted in {operation.unit}")
        for kind, operation in TIMED_WORK.items()
    },
    name="Minutes",
)


class Rates(OptionSchema):
    """The shop's own prices and times. Sheets and boards are priced by `cost` in `stock`."""

    currency = Text(most=12, load_default="", about="what money is called, for reading only")
    decimals = Count(most=4, load_default=2, about="digits after the point that money has")
    hardware = MapOf(
        Number(most=limits.GREATEST_MONEY),
        most=limits.RATES,
        load_default=dict,
        metadata={"description": "price of a piece by item id"},
    )
    band_per_m = MapOf(
        Number(most=limits.GREATEST_MONEY),
        most=limits.MATERIALS,
        load_default=dict,
        metadata={"description": "price of a metre of edge band by the key of its material"},
    )
    glue_per_kg = money("price of a kilogram of glue")
    finish_per_m2 = money("price of the finish for one coat of a square metre")
    coats = Count(least=1, most=20, load_default=1, about="coats of finish")
    hour = money("price of an hour of work")
    minutes = fields.Nested(MINUTES, metadata={"description": "minutes of work by kind"})
