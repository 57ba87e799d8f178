"""What a check is about, in words: papers and terminal print no JSON Pointer."""

from collections.abc import Mapping, Sequence

from casewright.sdk.errors import steps_of


def about(subject: str, cabinets: Mapping[str, int]) -> str:
    """Return what a check's subject names: an id as it is, a JSON Pointer (RFC 6901) into the job in words.

    `cabinets` are the job's, by id in its order, with how many are made of each.
    """
    if not subject.startswith("/"):
        return subject or "the job"
    match steps_of(subject):
        case ["wall", "cabinets_at", cabinet, place] if place.isdigit():
            number = f" {int(place) + 1}" if cabinets.get(cabinet, 0) > 1 else ""
            return f"{cabinet}{number} on the wall"
        case ["cabinets", place, *rest] if place.isdigit() and int(place) < len(cabinets):
            return ", ".join(word for word in (list(cabinets)[int(place)], _words(rest)) if word)
        case ["materials", material, *rest]:
            return ", ".join(word for word in (f"material {material}", _words(rest)) if word)
        case steps:
            return _words(steps)


def _words(steps: Sequence[str]) -> str:
    """Return steps of a pointer as words, places in a list counted from one."""
    return " ".join(str(int(step) + 1) if step.isdigit() else step.replace("_", " ") for step in steps)
