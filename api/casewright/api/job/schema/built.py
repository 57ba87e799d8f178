"""Schema of what is built: sizes measured of parts and cases."""

from casewright.api.job import limits
from casewright.api.job.fields import Key
from casewright.sdk.fields import Choice, Count, Length, OptionSchema, Text
from casewright.sdk.model import BuiltMeasure
from casewright.sdk.units import mm

PLACES = ("left", "middle", "right", "top", "bottom", "front", "back")


class BuiltSize(OptionSchema):
    """One size as it came out: of a part, or of a case that is glued up."""

    cabinet = Key(required=True, about="the cabinet's id")
    copy = Count(
        least=1,
        most=limits.COPIES,
        about="which of its copies, from 1, in the order of `cabinets_at`; without it loose parts are taken for any",
    )
    part = Text(
        least=1,
        most=200,
        about="the part by its id within the cabinet, such as side-left or door-1/panel; of an opening what goes "
        "into it: a door, a drawer, a loose shelf or a panel",
    )
    count = Count(least=1, most=limits.COPIES, about="how many such parts came out so; default: those of every copy")
    measure = Choice(*BuiltMeasure, required=True)
    at = Choice(*PLACES, about="where along it, where it was measured at several places")
    value = Length(least=1, most=limits.GREATEST_CABINET, required=True, about="as measured")
    packed = Length(most=mm(50), load_default=0, about="what is put on or under it to make it up")
