"""What to mind of stock: material it does not yield all parts of, with the smallest purchase, and defects."""

from collections.abc import Sequence

from casewright.api.engine.work.naming import first_of
from casewright.api.stock import begun_of
from casewright.sdk.errors import pointer_to
from casewright.sdk.model import SHORT_REASONS, Check, CleanPiece, Finding, Job, Lacking, Purchase, Shortage, StockPlan
from casewright.sdk.units import INCH, MM
from casewright.sdk.writer import Writer, writer

__all__ = ["NO_STOCK", "purchase_words", "stock_checks"]

NO_STOCK = "no-stock"
DEFECTS = "stock-defects"
STEP = {True: INCH // 1000, False: MM // 100}
"""A least size in words is rounded up to whole ones of these, in inch jobs and in others."""
NAMED = 4
"""Parts that a message names; the rest are counted."""


def stock_checks(job: Job, stock: StockPlan | None) -> tuple[Check, ...]:
    """Return a stop for each material, at its place in the job, whose parts cannot all be cut from its stock.

    A piece with defects or a taper that is cut from is a caution: it says into which clean pieces it is cut first.
    """
    if stock is None or job.stock is None:
        return ()
    write = writer(job.units)
    short = [_check(one, [row for row in stock.short if _of(row, one)], write) for one in stock.lacking]
    layouts = {layout.stock for layout in stock.layouts}
    clean: dict[str, list[CleanPiece]] = {}
    for begun in begun_of(job.stock, stock, job.shop.keep_offcut):
        wanted = layouts | {piece.id for piece in begun.spare}
        every = [one for one in job.stock.clean if one.stock == begun.stock.piece.id and one.piece.id in wanted]
        clean[begun.stock.piece.id] = every
    cut = [_clean_check(name, pieces, write) for name, pieces in clean.items()]
    return (*short, *cut)


def _clean_check(stock: str, clean: Sequence[CleanPiece], write: Writer) -> Check:
    """Return how a piece with defects is cut into clean ones before all else."""
    pieces = "; ".join(
        f"{one.piece.id} is {write.cut(one.piece.length)} × {write.cut(one.piece.width)}, its corner "
        f"{write.cut(one.x)} along and {write.cut(one.y)} across"
        for one in clean
    )
    message = f"The first steps cut {stock} clear of its defects or its taper, into clean pieces: {pieces}."
    return Check(stock, Finding(DEFECTS, "caution", message, len(clean), None, "pieces"))


def _of(short: Shortage, lacking: Lacking) -> bool:
    return (short.material, short.thickness) == (lacking.material, lacking.thickness)


def _check(lacking: Lacking, short: Sequence[Shortage], write: Writer) -> Check:
    named = first_of([f"{row.part} × {row.quantity}" for row in short], NAMED)
    reasons = "; ".join(dict.fromkeys(SHORT_REASONS[row.reason] for row in short))
    message = (
        f"{_pieces(lacking.parts)} of {lacking.material} cannot be cut: {reasons} ({named}). {_cure(lacking, write)}"
    )
    finding = Finding(NO_STOCK, "stop", message, lacking.parts, 0, "parts")
    return Check(pointer_to("materials", lacking.material), finding)


def _pieces(count: int) -> str:
    return "1 part" if count == 1 else f"{count} parts"


def _cure(lacking: Lacking, write: Writer) -> str:
    cures = []
    if lacking.turn:
        cures.append(f"let the grain of {', '.join(lacking.turn)} run either way, where its look allows")
    if lacking.unmatch:
        cures.append(f'cut {", ".join(lacking.unmatch)} from wherever they fit: leave out "match" of their space')
    if lacking.buy:
        bought = " and ".join(purchase_words(one, write) for one in lacking.buy)
        cures.append(f"get {bought}, the smallest purchase found that ends it")
    if not cures:
        return "No size that is sold widely would do: change the parts, or join them from smaller ones."
    text = ", or ".join(cures)
    return f"{text[0].upper()}{text[1:]}."


def purchase_words(bought: Purchase, write: Writer) -> str:
    """Return what is bought in words: how many, which or how large, and which way its grain runs."""
    if bought.stock:
        return f"{bought.quantity} of {bought.stock} ({write.size(bought.length)} × {write.length(bought.width)})"
    length, width = [-(-nm // STEP[write.inches]) * STEP[write.inches] for nm in (bought.length, bought.width)]
    size = f"{write.size(length)} × {write.length(width)}"
    grain = {"along-length": ", grain along the first", "along-width": ", grain along the second", "free": ""}
    pieces = "a piece" if bought.quantity == 1 else f"{bought.quantity} pieces"
    return f"{pieces} of {size} or more, {write.length(bought.thickness)} thick{grain[bought.grain]}"
