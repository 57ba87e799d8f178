// Where things of a job stand in its text: what a JSON Pointer or a check's subject names, and what breaks the JSON.
import { findNodeAtLocation, getNodeValue, parseTree } from "./library/codemirror.js";

const STRICT = { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false };
const BROKEN = {
  2: "this is no number as JSON has them",
  3: "a key in double quotes is missing",
  4: "a value is missing",
  5: "a colon is missing after the key",
  6: "a comma, or a closing bracket, is missing",
  7: "a closing } is missing",
  8: "a closing ] is missing",
  9: "something stands after the end of the job",
  10: "JSON has no comments",
  11: "JSON has no comments",
  12: "a closing quote is missing",
};
/** Codes of what is missing: it is missing right after what stands before. */
const LACKING = new Set([3, 4, 5, 6, 7, 8]);
/** Words for the reader's error codes; those of text in quotes share one, and so do all others. */
const IN_QUOTES = "text in quotes holds what must be escaped";
const ANYTHING = "this is not JSON";

/** Read a job's text as far as it can be read: its tree, and the first thing that breaks it, or null. */
export function readPlaces(text) {
  const errors = [];
  const tree = parseTree(text, errors, STRICT);
  const [first] = errors;
  const words = first && (BROKEN[first.error] ?? (first.error > 12 ? IN_QUOTES : ANYTHING));
  return { tree, broken: first ? { at: LACKING.has(first.error) ? text.slice(0, first.offset).trimEnd().length : first.offset, words } : null };
}

/** Return the steps of a JSON Pointer (RFC 6901). */
export function stepsOf(pointer) {
  return pointer.split("/").slice(1).map((step) => step.replaceAll("~1", "/").replaceAll("~0", "~"));
}

/** Return the node that a pointer's steps lead to, or the last one on the way, and how many steps led there. */
function follow(tree, steps) {
  let node = tree;
  for (const [i, step] of steps.entries()) {
    const next = node && findNodeAtLocation(node, [node.type === "array" ? Number(step) : step]);
    if (!next) return { node, taken: i };
    node = next;
  }
  return { node, taken: steps.length };
}

/** Return where a JSON Pointer's value stands, `{from, to}`: with its key, or what encloses it where it is left out.
 *
 * What a cabinet leaves out it has from the house: then that is the place.
 */
export function placeOf(tree, pointer) {
  if (!tree) return { from: 0, to: 0 };
  const steps = stepsOf(pointer);
  let found = follow(tree, steps);
  if (steps[0] === "cabinets" && steps.length > 2 && found.taken < steps.length) {
    const house = follow(tree, ["house", ...steps.slice(2)]);
    if (house.taken === steps.length - 1) found = house;
  }
  const { node } = found;
  const whole = node.parent?.type === "property" ? node.parent : node;
  return { from: whole.offset, to: whole.offset + whole.length };
}

/** Return the pointer to what a check is about, or null where the job does not name it: an id begins with a cabinet's. */
export function pointerOf(tree, subject) {
  if (subject.startsWith("/")) return subject;
  const wanted = subject.split(/[/ ]/)[0]; // of copies that come out differently the name has a number behind it
  for (const [list, id] of [["cabinets", wanted], ["loose_parts", subject]]) {
    const rows = tree && findNodeAtLocation(tree, [list]);
    const at = (rows?.children ?? []).findIndex((row) => getNodeValue(row)?.id === id);
    if (at >= 0) return `/${list}/${at}`;
  }
  return null;
}
