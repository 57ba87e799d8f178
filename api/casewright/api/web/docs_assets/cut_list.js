// The tab of the cut list: parts cut alike in one row, and why each part is that size.
import { counted, el, figure, table } from "./basics.js";

const GRAIN = { "along-length": null, "along-width": "grain along the width", free: "grain either way" };

export function cutList(bench) {
  const { plan } = bench;
  if (!plan.parts.length) return [el("p", {}, "This job has no parts.")];
  const rows = alike(plan.parts);
  const sorts = new Map();
  for (const parts of rows) {
    const name = `${parts[0].material}, ${parts[0].text.thickness} thick`;
    sorts.set(name, [...(sorts.get(name) ?? []), parts]);
  }
  return [
    el("p", { class: "small" }, `${counted(rows.length, "size")}, ${counted(total(plan.parts, "quantity"), "piece")}. On the tape, and below it in decimals. The grain runs along the length where nothing else stands.`),
    ...[...sorts].flatMap(([name, some]) => [
      el("h4", {}, name),
      table(`Cut list: ${name}`, ["Part", "Pieces", "Length", "Width"], some.map(row), [1, 2, 3]),
    ]),
    el("p", { class: "row" },
      bench.saver("Cut list (CSV)", "v1/parts?as=csv", "parts.csv"),
      bench.saver("Parts as outlines (DXF)", "v1/outlines", "outlines.dxf"),
      bench.saver("Labels (PDF)", "v1/labels", "labels.pdf")),
    reasons(plan),
  ];
}

function row(parts) {
  const [first] = parts;
  const bands = first.edge_band.map((band) => band.material);
  const notes = [GRAIN[first.grain], bands.length ? `banded: ${bands.join(", ")}` : null,
    total(parts, "built") ? `cut already: ${total(parts, "built")}` : null].filter(Boolean);
  return [
    [parts.map((part) => part.id).join(", "), el("span", { class: "decimal" }, notes.join("; ")),
      total(parts, "no_stock") ? el("strong", {}, `no stock yet for ${total(parts, "no_stock")}`) : null],
    String(total(parts, "quantity")),
    size(first, "length"),
    size(first, "width"),
  ];
}

function total(parts, name) {
  return parts.reduce((sum, part) => sum + (part[name] ?? 0), 0);
}

/** Return parts by what they are cut from and to, as the booklet's cut list has them, in the order of materials. */
function alike(parts) {
  const groups = new Map();
  for (const part of parts) {
    const bands = part.edge_band.map((band) => band.material).sort();
    const name = JSON.stringify([part.material, part.length, part.width, part.thickness, part.grain, bands]);
    groups.set(name, [...(groups.get(name) ?? []), part]);
  }
  const materials = [...new Set(parts.map((part) => part.material))];
  return [...groups.values()].sort(([a], [b]) => materials.indexOf(a.material) - materials.indexOf(b.material));
}

function size(part, side) {
  return [part.text[side], el("span", { class: "decimal" }, figure(part[side], 7))];
}

function reasons(plan) {
  const sum = (terms) => terms.map((one, i) => `${one.value < 0 ? "− " : i ? "+ " : ""}${one.term} ${figure(Math.abs(one.value), 10)}`).join(" ");
  const rows = plan.parts.flatMap((part) => [
    el("dt", {}, el("strong", {}, part.id)),
    el("dd", {}, `length ${figure(part.length, 10)} = ${sum(part.why.length)}`),
    el("dd", {}, `width ${figure(part.width, 10)} = ${sum(part.why.width)}`),
  ]);
  return el("details", {}, el("summary", {}, "Why each part is that size"), el("dl", { class: "small" }, ...rows));
}
