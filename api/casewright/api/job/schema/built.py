"""Schema of what is built: sizes measured of parts and cases."""

from casewright.api.job import limits
from casewright.api.job.fields import Key
from casewright.sdk.fields import Choice, Count, Length, OptionSchema, Text
from casewright.sdk.model import BuiltMeasure, Mistake
from casewright.sdk.units import mm

PLACES = ("left", "middle", "right", "top", "bottom", "front", "back")


class BuiltSize(OptionSchema):
    """One size as it came out, of a part, an opening or a case that is glued up; or a mistake made with a part."""

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
    measure = Choice(*BuiltMeasure, about="which size")
    mistake = Choice(*Mistake, about="what went wrong with a part or a door, in place of a measure")
    at = Choice(*PLACES, about="where along it, where it was measured at several places")
    value = Length(
        least=mm("0.1"),
        most=limits.GREATEST_CABINET,
        about="as measured; of a door that meets its neighbour, by how much",
    )
    packed = Length(most=mm(50), load_default=0, about="what is put on or under it to make it up")
