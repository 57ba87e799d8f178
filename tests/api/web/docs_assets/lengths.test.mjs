// Lengths in words: what an inch or millimetre tape shows. By hand: 1 in is 25.4 mm.
import assert from "node:assert/strict";
import { test } from "node:test";
import { tapeText } from "../../../../api/casewright/api/web/docs_assets/lengths.js";

test("inches are whole ones and a fraction in its lowest terms", () => {
  const rows = [[22.225, "7/8 in"], [406.4, "16 in"], [699.691, "27 35/64 in"], [-6.35, "-1/4 in"], [0, "0 in"], [25.39, "1 in"]];
  for (const [mm, words] of rows) assert.equal(tapeText(mm, "in", "1/64"), words);
  assert.equal(tapeText(699.691, "in", "1/16"), "27 9/16 in"); // 27.547: 8.75 sixteenths
});

test("millimetres have the digits of their tape", () => {
  assert.equal(tapeText(406.4, "mm", "1"), "406 mm");
  assert.equal(tapeText(406.4, "mm", "1/2"), "406.5 mm");
  assert.equal(tapeText(406.44, "mm", "1/10"), "406.4 mm");
});
