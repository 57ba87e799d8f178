// A job as text: the same job again, short things on one line.
import assert from "node:assert/strict";
import { test } from "node:test";
import { tidy } from "../../../../api/casewright/api/web/docs_assets/tidy.js";

test("text that is read again is the same job, in the same order", () => {
  const job = { units: "in", empty: {}, none: [], cabinets: [{ id: "a", tiers: [{ size: 20 }, { front: "open" }] }], note: 'with "quotes"', nothing: null };
  assert.equal(JSON.stringify(JSON.parse(tidy(job))), JSON.stringify(job));
});

test("what fits on a line stands on one, and no line that can be broken is longer", () => {
  const text = tidy({ at: [7, 23, 39], long: { words: Array.from({ length: 20 }, (_, i) => `word ${i}`) } });
  const lines = text.split("\n");
  assert.equal(lines[1], '  "at": [7, 23, 39],');
  assert.ok(Math.max(...lines.map((line) => line.length)) <= 80);
});
