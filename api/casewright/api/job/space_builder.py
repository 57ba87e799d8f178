"""The inside of a cabinet from what was read: spaces divided into bays and tiers down to leaves with fronts."""

from casewright.api.job import limits
from casewright.api.job.defaults import Values
from casewright.api.job.problems import Findings, Phrase
from casewright.api.job.reading import ObjectReader
from casewright.sdk import model

LEAF = ("front", "hinge_side", "overlays", "fixed_shelves", "loose_shelves", "drawers", "drawer_heights", "drawer_rule")
DOORS = ("door", "door-pair")


def build_space(reader: ObjectReader, findings: Findings, values: Values, at: str, depth: int = 0) -> model.Space:
    """Return the space that stands at pointer `at`, noting what does not go together in it."""
    if depth > limits.SPACE_DEPTH:
        rule = f"divisions at most {limits.SPACE_DEPTH} deep"
        findings.add(at, rule, depth, "Divide less deeply.", beyond_schema=True)
        return model.Space(at)
    divisions = [key for key in ("bays", "tiers") if key in values]
    leaf = [key for key in LEAF if key in values and values[key] != reader.defaults.get(key)]
    _check_keys(findings, values, at, divisions, leaf)
    size, share, match = values.get("size"), values.get("share", 1), values.get("match", False)
    if divisions:
        key = divisions[0]
        parts = tuple(build_space(reader, findings, v, f"{at}/{key}/{i}", depth + 1) for i, v in enumerate(values[key]))
        return model.Space(at, size, share, "bays" if key == "bays" else "tiers", parts, match=match)
    full = {**reader.defaults, **values}
    if "overlays" in full and full["front"] not in DOORS:
        rule = "overlays of a space with doors"
        findings.add(f"{at}/overlays", rule, full["front"], 'Leave out "overlays".', beyond_schema=True)
    fixed = full["fixed_shelves"]
    heights = fixed if isinstance(fixed, tuple) else None
    return model.Space(
        pointer=at,
        size=size,
        share=share,
        front=full["front"],
        hinge_side=full["hinge_side"],
        overlays=model.Overlays(**full["overlays"]) if "overlays" in full else None,
        fixed_count=fixed if heights is None else len(heights),
        fixed_heights=heights,
        loose_count=full["loose_shelves"],
        drawer_count=full["drawers"],
        drawer_heights=None if "drawer_heights" not in full else tuple(full["drawer_heights"]),
        drawer_rule=full["drawer_rule"],
        match=match,
    )


def _check_keys(findings: Findings, values: Values, at: str, divisions: list[str], leaf: list[str]) -> None:
    """Note keys that rule one another out: divisions, and keys of a leaf that are not at their default."""
    if len(divisions) + bool(leaf) > 1:
        got = Phrase(" and ".join(f'"{key}"' for key in [*divisions, *leaf]))
        fix = (
            "Put the front and the shelves into the bays or tiers."
            if leaf
            else "Put tiers inside a bay, or bays inside a tier."
        )
        findings.add(at, "bays, or tiers, or a space with a front and shelves", got, fix, beyond_schema=True)
    if "size" in values and "share" in values:
        rule = "size or share, never both"
        findings.add(f"{at}/share", rule, values["share"], 'Leave out "share".', beyond_schema=True)
