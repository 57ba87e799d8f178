"""Schemas of the shop: what its saws and cutters can do, its machines, its allowances, its glue and finish."""

from casewright.api.job import limits
from casewright.api.job.fields import Rows
from casewright.api.job.schema.pieces import DETAIL, about, detail
from casewright.sdk.fields import Choice, Count, Length, OptionSchema, Text
from casewright.sdk.model import Action, Machine
from casewright.sdk.model.fits import HALF_WIDTHS
from casewright.sdk.units import inches, mm
from marshmallow import fields


class GlueTimes(OptionSchema):
    """Times of the shop's glue, in minutes (defaults: white glue, open 5 to 15 min, clamped an hour, cured a day)."""

    open = Count(least=1, most=1_000, load_default=10, about="from spreading to closing")
    clamped = Count(least=1, load_default=60, about="in clamps")
    cure = Count(least=1, load_default=1_440, about="until the joint is loaded or worked")


class Coat(OptionSchema):
    """One coat of finish."""

    what = Text(most=60, required=True, about="what is put on")
    minutes = Count(load_default=0, about="how long it dries before the next work")


def _half_width(nm: int, about_it: str) -> Length:
    return Length(most=mm(5), load_default=nm, about=about_it)


class Accuracy(OptionSchema):
    """How far the shop's work may be off, either way: 3 σ by what is done (defaults: common practice, no source)."""

    rip = _half_width(HALF_WIDTHS[Action.RIP], "a width to a fence")
    crosscut = _half_width(HALF_WIDTHS[Action.CROSSCUT], "a length to a stop")
    trim = _half_width(HALF_WIDTHS[Action.TRIM], "trimmed to size")
    thickness = _half_width(HALF_WIDTHS[Action.THICKNESS], "planed to thickness")
    groove = _half_width(HALF_WIDTHS[Action.GROOVE], "place and depth of a groove")
    rabbet = _half_width(HALF_WIDTHS[Action.RABBET], "place and depth of a rabbet")
    notch = _half_width(HALF_WIDTHS[Action.NOTCH], "a notch")
    tenon = _half_width(HALF_WIDTHS[Action.TENON], "cheeks and shoulders of a tenon")
    dovetail = _half_width(HALF_WIDTHS[Action.DOVETAIL], "a dovetail or its slot")
    profile = _half_width(HALF_WIDTHS[Action.PROFILE], "a moulded edge")
    bore = _half_width(HALF_WIDTHS[Action.BORE], "place of a hole")
    band = _half_width(HALF_WIDTHS[Action.BAND], "thickness of a band, flushed")
    fit = _half_width(HALF_WIDTHS[Action.FIT], "parts set flush by hand, or where they lie in their grooves")
    mark = _half_width(HALF_WIDTHS[Action.MARK], "a place measured and marked")
    measure = _half_width(HALF_WIDTHS[Action.MEASURE], "a reading of tape or rule on the work")
    sheet = _half_width(mm("0.1"), "thickness of a sheet from what was measured")


class Shop(OptionSchema):
    """What the saws and cutters can do, and the shop's allowances."""

    rip_capacity = Length(
        least=mm(10), allow_none=False, load_default=None, about="widest rip of the table saw; left out: any"
    )
    crosscut_capacity = Length(
        least=mm(10), allow_none=False, load_default=None, about="widest crosscut; left out: any"
    )
    groove_cutters = Rows(
        Length(least=mm(1), most=DETAIL),
        most=limits.GROOVE_CUTTERS,
        load_default=list,
        metadata=about("widths of cutters for grooves; none: any"),
    )
    fit = Length(most=mm(5), load_default=mm("0.2"), about="added to a measured thickness in a groove")
    keep_offcut = Rows(
        Length(most=limits.GREATEST_STOCK),
        least=2,
        most=2,
        load_default=lambda: [inches(6), inches(12)],
        metadata=about("least width and length of an offcut worth keeping"),
    )
    wall_allowance = detail(inches("1/8"), about="room left behind for a wall that is not flat")
    glue = fields.Nested(GlueTimes, load_default=dict, metadata=about("times of the glue"))
    finish = Rows(
        fields.Nested(Coat),
        most=limits.COATS,
        load_default=list,
        metadata=about("the coats in their order; they count in place of `rates.coats`"),
    )
    machines = Rows(
        Choice(*Machine), most=limits.MACHINES, load_default=list, metadata=about("what the shop has; none: every one")
    )
    same = Length(
        most=mm(1),
        load_default=mm("0.1"),
        about="settings this near are made one, and a cutter this much wider makes a groove in one pass",
    )
    accuracy = fields.Nested(Accuracy, load_default=dict, metadata=about("how far work may be off"))
    driver = Length(
        least=mm(20),
        most=mm(1000),
        load_default=mm(200),
        about="length of the screwdriver with its bit, past the head (common practice, no source)",
    )
