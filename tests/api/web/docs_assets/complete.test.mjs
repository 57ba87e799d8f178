// What is suggested at a place marked | in a job: by the service's own description, read from openapi/openapi.json.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { suggestions } from "../../../../api/casewright/api/web/docs_assets/complete.js";

const described = JSON.parse(readFileSync(new URL("../../../../openapi/openapi.json", import.meta.url)));
const { schemas } = described.components;

const read = (marked) => suggestions(schemas, marked.replace("|", ""), marked.indexOf("|"));
const labels = (marked) => (read(marked)?.options ?? []).map((one) => one.label);
/** Return the text with the suggestion of a label taken, and | where the cursor then stands. */
function taken(marked, label) {
  const found = read(marked);
  const text = marked.replace("|", "");
  const { insert, back } = found.options.find((one) => one.label === label);
  const at = found.from + insert.length - back;
  const made = text.slice(0, found.from) + insert + text.slice(found.to);
  return `${made.slice(0, at)}|${made.slice(at)}`;
}

test("keys are those of the place, less those that stand there", () => {
  const top = labels('{"units": "in", "|"}');
  for (const key of ["cabinets", "materials", "wall", "shop", "stock"]) assert.ok(top.includes(key), key);
  assert.ok(!top.includes("units"));
  const cabinet = labels('{"cabinets": [{"id": "tools", |}]}');
  for (const key of ["width", "height", "depth", "doors", "mounting"]) assert.ok(cabinet.includes(key), key);
  assert.ok(!cabinet.includes("id"));
  assert.ok(!cabinet.includes("cabinets"));
});

test("needed keys come first", () => {
  const [first] = read('{"|"}').options;
  assert.equal(first.detail, "needed");
  assert.equal(first.label, "units");
});

test("values are those the schema lists", () => {
  assert.deepEqual(labels('{"units": "|"}'), ["in", "mm"]);
  assert.deepEqual(labels('{"cabinets": [{"form": |}]}').slice(0, 3), ["wall", "base", "tall"]);
});

test("a method's options are its own, once it is named", () => {
  const options = (method) => labels(`{"cabinets": [{"mounting": {"method": "${method}", "|"}}]}`);
  assert.ok(options("bevel-cleat").includes("bevel_deg"));
  assert.ok(!options("screw-strip").includes("bevel_deg"));
  for (const typed of ["", "bevel-cleat"]) {
    assert.deepEqual(labels(`{"cabinets": [{"mounting": {"method": "${typed}|"}}]}`).sort(), ["bevel-cleat", "screw-strip"]);
  }
});

test("materials are those of the job", () => {
  const job = (key) => `{"materials": {"birch": {}, "oak": {}}, "house": {"case": {"${key}": "|"}}}`;
  assert.deepEqual(labels(job("material")), ["birch", "oak"]);
  assert.deepEqual(labels('{"materials": {"birch": {"stuff": "|"}}}'), []);
});

test("what is taken replaces what was typed, with the cursor where writing goes on", () => {
  assert.equal(taken('{"un|"}', "units"), '{"units": "|"}');
  assert.equal(taken('{"units": "m|"}', "mm"), '{"units": "mm"|}');
  assert.equal(taken('{"|": {}}', "wall"), '{"wall"|: {}}');
  assert.equal(taken('{"cab|"}', "cabinets"), '{"cabinets": [|]}');
  assert.equal(taken('{"shop": {"|"}}', "rip_capacity"), '{"shop": {"rip_capacity": |}}');
});

test("nothing is suggested where nothing is known", () => {
  assert.equal(read('{"title": "|"}'), null);
  assert.equal(read('{"nothing": {"|"}}'), null);
});
