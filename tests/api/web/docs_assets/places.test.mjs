// Places in a job's text, counted by hand.
import assert from "node:assert/strict";
import { test } from "node:test";
import { placeOf, pointerOf, readPlaces, stepsOf } from "../../../../api/casewright/api/web/docs_assets/places.js";

const TEXT = `{
  "units": "in",
  "house": {"depth": 11, "doors": {"gap": 9}},
  "cabinets": [
    {"id": "tools", "width": 28},
    {"id": "spares", "width": "30 mm"}
  ],
  "loose_parts": [{"id": "shelf/1"}]
}`;
const at = (pointer) => {
  const { from, to } = placeOf(readPlaces(TEXT).tree, pointer);
  return TEXT.slice(from, to);
};

test("a value stands with its key", () => {
  assert.equal(at("/units"), '"units": "in"');
  assert.equal(at("/cabinets/1/width"), '"width": "30 mm"');
  assert.equal(at("/cabinets/0"), '{"id": "tools", "width": 28}');
  assert.equal(at(""), TEXT);
});

test("what is left out is where it would stand, or in the house where a cabinet has it from there", () => {
  assert.equal(at("/cabinets/0/height"), '{"id": "tools", "width": 28}');
  assert.equal(at("/cabinets/0/doors/gap"), '"gap": 9');
  assert.equal(at("/wall/studs"), TEXT);
});

test("a check is about a pointer, or an id that begins with a cabinet's", () => {
  const { tree } = readPlaces(TEXT);
  assert.equal(pointerOf(tree, "spares/door-1+frame"), "/cabinets/1");
  assert.equal(pointerOf(tree, "shelf/1"), "/loose_parts/0");
  assert.equal(pointerOf(tree, "/wall/x"), "/wall/x");
  assert.equal(pointerOf(tree, "nothing"), null);
});

test("steps are unescaped as RFC 6901, section 4 has it", () => {
  assert.deepEqual(stepsOf("/a~1b/m~0n/~01"), ["a/b", "m~n", "~1"]);
  assert.deepEqual(stepsOf(""), []);
});

test("what breaks the JSON is named, and what is missing is missing right after what stands before", () => {
  const broken = (text) => readPlaces(text).broken;
  assert.equal(broken(TEXT), null);
  assert.match(broken('{"a": }').words, /value/);
  assert.match(broken('{"a": 1 "b": 2}').words, /comma/);
  assert.equal(broken('{"a": 1 "b": 2}').at, 7);
  assert.match(broken('{"a" 1}').words, /colon/);
  assert.match(broken('{"a": [1}').words, /closing bracket/);
  assert.match(broken('{"a": {"b": 1').words, /\}/);
  assert.match(broken("").words, /value/);
  assert.ok(broken('{"a": 1,}'));
  assert.ok(broken('{"a": 1} // note'));
});
