// What may be written at a place of the job, from the schemas of openapi.json.
import { getLocation, parse } from "./library/codemirror.js";

/** Keys whose ids are those of the job's own materials. */
const OF_MATERIALS = /(^|_)(material|band|panel)$/;

/** Return what may stand at an offset of a job's text.
 *
 * `{from, to, typed, options}`: what is replaced, where the text begins that options are sought by, and the options,
 * each `{label, detail, info, insert, back, more}`: `back` is how far before the end of `insert` the cursor then
 * stands, `more` whether something can be suggested there in turn. Null where nothing is known.
 */
export function suggestions(schemas, text, offset) {
  const location = getLocation(text, offset);
  const { previousNode: node, isAtPropertyKey: atKey } = location;
  const inside = node && node.offset < offset && offset <= node.offset + node.length ? node : null;
  const word = /[\w.-]*$/.exec(text.slice(0, offset))[0].length;
  const quoted = inside?.type === "string" || inside?.type === "property";
  const from = inside ? inside.offset : offset - word;
  const to = inside ? inside.offset + inside.length : offset;
  const document = parse(text, [], { allowTrailingComma: true });
  const path = atKey ? location.path.slice(0, -1) : location.path;
  const around = valueAt(document, path.slice(0, -1));
  if (!atKey && around) around[path.at(-1)] = undefined; // what is written there now does not narrow what may be
  const found = candidates(schemas, path, document);
  const options = atKey
    ? keys(schemas, found, valueAt(document, path), location.path.at(-1), /^\s*:/.test(text.slice(to)))
    : values(schemas, found, path, document);
  return options.length ? { from, to, typed: quoted ? from + 1 : from, options } : null;
}

/** Return the schemas that the value at a path of the document may match. */
function candidates(schemas, path, document) {
  let found = expand(schemas, { $ref: "#/components/schemas/Job" }, document);
  let value = document;
  for (const step of path) {
    value = value?.[step];
    found = found.flatMap((schema) => {
      const below = typeof step === "number" ? schema.items : (schema.properties?.[step] ?? schema.additionalProperties);
      return below && typeof below === "object" ? expand(schemas, below, value) : [];
    });
  }
  return found;
}

/** Return the plain schemas that one stands for; of several, those that the value fits. */
function expand(schemas, schema, value) {
  if (schema.$ref) {
    const name = schema.$ref.split("/").pop();
    return expand(schemas, schemas[name], value).map((one) => ({ ...one, name: one.name ?? name }));
  }
  const several = schema.oneOf ?? schema.anyOf ?? schema.allOf;
  return several ? fitting(schemas, several.flatMap((one) => expand(schemas, one, value)), value) : [schema];
}

/** Return those of several schemas that the value's own words name, such as a method; all where they name none. */
function fitting(schemas, several, value) {
  let left = several;
  for (const key of Object.keys(value && typeof value === "object" ? value : {})) {
    const named = left.filter((one) => words(schemas, one.properties?.[key]).includes(value[key]));
    if (named.length) left = named;
  }
  return left;
}

/** Return the words that a schema lists, if it does. */
function words(schemas, schema) {
  return schema ? expand(schemas, schema).flatMap((one) => (one.const === undefined ? (one.enum ?? []) : [one.const])) : [];
}

function keys(schemas, found, value, typed, hasColon) {
  const options = new Map();
  for (const schema of found) {
    for (const [key, one] of Object.entries(schema.properties ?? {})) {
      if (options.has(key) || (value && key in value && key !== typed)) continue;
      const start = hasColon ? "" : `: ${beginning(expand(schemas, one))}`;
      options.set(key, {
        label: key,
        detail: schema.required?.includes(key) ? "needed" : "",
        info: one.description ?? "",
        insert: `${JSON.stringify(key)}${start}`,
        back: /["\]}]$/.test(start) ? 1 : 0,
        more: !hasColon,
      });
    }
  }
  return [...options.values()].sort((a, b) => (b.detail !== "") - (a.detail !== ""));
}

/** Return how a value of these schemas begins and ends. */
function beginning(found) {
  const [first] = found;
  if (found.length !== 1 || !first) return "";
  return { object: "{}", array: "[]", string: '""' }[first.type] ?? "";
}

function values(schemas, found, path, document) {
  const options = new Map();
  const add = (value, info = "", detail = "") => {
    const insert = JSON.stringify(value);
    if (!options.has(insert)) options.set(insert, { label: typeof value === "string" ? value : insert, detail, info, insert, back: /[\]}]$/.test(insert) ? 1 : 0, more: false });
  };
  for (const schema of found) {
    for (const word of schema.enum ?? []) add(word);
    if (schema.const !== undefined) add(schema.const);
    if (schema.default !== undefined && schema.default !== "") add(schema.default, "what is taken where it is left out", "default");
    if (schema.type === "boolean") [true, false].forEach((word) => add(word));
    if (schema.type === "null") add(null);
    if (schema.type === "array") add([]);
    if (schema.type === "object") add(started(schemas, schema), schema.description);
    if (schema.name === "Id" && OF_MATERIALS.test(path.at(-1))) Object.keys(document?.materials ?? {}).forEach((id) => add(id, "a material of this job"));
  }
  return [...options.values()];
}

/** Return an object with what tells its schema from others: its method. */
function started(schemas, schema) {
  const fixed = Object.entries(schema.properties ?? {}).flatMap(([key, one]) => {
    const listed = words(schemas, one);
    return schema.required?.includes(key) && listed.length === 1 ? [[key, listed[0]]] : [];
  });
  return Object.fromEntries(fixed);
}

function valueAt(document, path) {
  return path.reduce((value, step) => value?.[step], document);
}
