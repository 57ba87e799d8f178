// The reference, written from /openapi.json. Folds are filled when first opened.
import { el } from "./basics.js";

let components = {};

export function showReference(description) {
  components = description.components;
  const paths = document.getElementById("path-list");
  for (const [path, operations] of Object.entries(description.paths)) {
    for (const [verb, operation] of Object.entries(operations)) paths.append(onePath(path, verb, operation));
  }
  const shapes = document.getElementById("shape-list");
  const shown = Object.entries(components.schemas).sort(([a], [b]) => (b === "Job") - (a === "Job"));
  const folds = shown.map(([name, schema]) => oneShape(name, schema));
  shapes.append(...folds);
  document.getElementById("shape-filter").addEventListener("input", (event) => {
    const wanted = event.target.value.trim().toLowerCase();
    for (const shape of folds) shape.hidden = !shape.dataset.name.toLowerCase().includes(wanted);
  });
}

function fold(attributes, heading, fill) {
  const made = el("details", attributes, el("summary", {}, ...heading));
  made.addEventListener("toggle", () => {
    if (made.open && made.children.length === 1) made.append(el("div", { class: "inside" }, fill()));
  });
  return made;
}

function onePath(path, verb, operation) {
  const heading = [
    el("span", { class: "verb" }, verb.toUpperCase()),
    el("span", { class: "path" }, path),
    ` ${operation.summary ?? ""}`,
  ];
  return fold({ id: `path-${operation.operationId}` }, heading, () => [
    operation.description && el("p", {}, operation.description),
    ...parametersOf(operation),
    ...bodyOf(operation),
    ...answersOf(operation),
  ]);
}

function parametersOf(operation) {
  if (!operation.parameters?.length) return [];
  const rows = operation.parameters.map(follow).map((one) => definition(
    one.name, one.required, one.in === "query" && one.explode ? ["any path: text"] : typeOf(one.schema), one.description,
  ));
  return [el("h3", {}, "In the query or path"), el("dl", {}, ...rows.flat())];
}

function bodyOf(operation) {
  if (!operation.requestBody) return [];
  const body = follow(operation.requestBody);
  const rows = Object.entries(body.content).map(([type, one]) => definition(type, false, typeOf(one.schema), one.schema.description));
  return [el("h3", {}, "Body"), body.description && el("p", {}, body.description), el("dl", {}, ...rows.flat())];
}

function answersOf(operation) {
  const rows = Object.entries(operation.responses).map(([status, answer]) => {
    const one = follow(answer);
    const kinds = Object.entries(one.content ?? {}).flatMap(([type, held], i) => [i ? ", " : "", el("code", {}, type), " ", ...typeOf(held.schema, true)]);
    return [el("dt", {}, el("strong", {}, status), ` ${one.description}`), el("dd", {}, ...kinds)];
  });
  return [el("h3", {}, "Answers"), el("dl", {}, ...rows.flat())];
}

function oneShape(name, schema) {
  const about = schema.title ?? schema.description ?? "";
  return fold({ id: `shape-${name}`, "data-name": name }, [el("span", { class: "path" }, name), about && about !== name ? ` ${about}` : ""], () => {
    const needed = new Set(schema.required ?? []);
    const said = schema.description && schema.description !== about ? [el("p", {}, schema.description)] : [];
    const rows = Object.entries(schema.properties ?? {}).map(([key, one]) => definition(
      key, needed.has(key), typeOf(one), [aboutOf(one), [undefined, null, ""].includes(one.default) ? "" : `Left out: ${JSON.stringify(one.default)}.`].filter(Boolean).join(" "),
    ));
    return rows.length ? [...said, el("dl", {}, ...rows.flat())] : [...said, el("p", {}, ...typeOf(schema))];
  });
}

function definition(name, needed, type, about) {
  return [
    el("dt", {}, el("code", {}, name), needed ? " (needed) " : " ", ...type),
    el("dd", { class: "small" }, about ?? ""),
  ];
}

function aboutOf(one) {
  return one.description ?? (plain(follow(one)) ? follow(one).description : undefined);
}

/** Whether a named shape is but a value that several shapes share, shown where it is used. */
function plain(schema) {
  return !schema.properties && !schema.discriminator && !schema.oneOf;
}

function follow(one) {
  return one.$ref ? one.$ref.slice(2).split("/").slice(1).reduce((at, step) => at[step], components) : one;
}

/** Say a schema's type in words; named shapes become links. `brief` leaves plain text and files out. */
function typeOf(schema, brief = false) {
  if (!schema) return ["anything"];
  if (schema.$ref) {
    if (plain(follow(schema))) return typeOf(follow(schema), brief);
    const name = schema.$ref.split("/").pop();
    return [el("a", { href: `#shape-${encodeURIComponent(name)}` }, name)];
  }
  if (schema.const !== undefined) return [el("code", {}, JSON.stringify(schema.const))];
  if (schema.enum) return ["one of ", el("code", {}, schema.enum.map((word) => JSON.stringify(word)).join(" "))];
  const several = schema.oneOf ?? schema.anyOf;
  if (several) return several.flatMap((one, i) => [i ? " or " : "", ...typeOf(one)]);
  if (schema.allOf) return schema.allOf.flatMap((one) => typeOf(one));
  if (schema.type === "array") return ["list of ", ...typeOf(schema.items)];
  if (schema.type === "object" && schema.additionalProperties instanceof Object) return ["object, each ", ...typeOf(schema.additionalProperties)];
  if (brief && schema.type === "string") return [""];
  if (schema.type === "null") return ["nothing (null)"];
  return [words[schema.type] ?? schema.type ?? "anything", bounds(schema)];
}

const words = { string: "text", number: "number", integer: "whole number", boolean: "true or false", object: "object" };

function bounds(schema) {
  const { minimum, maximum, maxLength } = schema;
  if (minimum !== undefined && maximum !== undefined) return ` from ${minimum} to ${maximum}`;
  if (minimum !== undefined) return ` from ${minimum}`;
  return maxLength === undefined ? "" : `, at most ${maxLength} characters`;
}
