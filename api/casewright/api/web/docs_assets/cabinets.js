// The tab of cabinets: what is made, what is bought, what it costs, and the papers to take away.
import { counted, el, figure, table } from "./basics.js";

export function cabinets(bench) {
  const { plan } = bench;
  return [
    el("h4", {}, "What is made"),
    table("Cabinets", ["Cabinet", "To make", "Width × height × depth", "Weight of each", "People to lift it"],
      plan.summary.map((one) => [one.title ? `${one.cabinet}: ${one.title}` : one.cabinet, String(one.count), one.text, mass(one), String(one.hands ?? "")]), [1, 4]),
    el("h4", {}, "Papers to take away"),
    el("p", { class: "row" },
      bench.saver("Booklet (PDF)", "v1/booklet", "booklet.pdf"),
      bench.saver("Labels (PDF)", "v1/labels", "labels.pdf"),
      bench.saver("Workbook (XLSX)", "v1/workbook", "workbook.xlsx"),
      bench.saver("Every paper, the plan and its tables (ZIP)", "v1/papers", "papers.zip"),
      bench.saver("Solid model (GLB)", "v1/model", "model.glb"),
      bench.saver("The plan (JSON)", "v1/plan", "plan.json")),
    el("h4", {}, "Hardware"),
    table("Hardware", ["Item", "Pieces"], hardware(plan).map(([name, pieces]) => [name, String(pieces)]), [1]),
    el("p", { class: "row" }, bench.saver("Hardware (CSV)", "v1/hardware?as=csv", "hardware.csv")),
    ...costs(plan.costs),
  ];
}

function mass(one) {
  if (one.mass_kg === undefined) return "";
  return one.mass_lb === undefined ? `${one.mass_kg.toFixed(1)} kg` : `${one.mass_lb.toFixed(0)} lb (${one.mass_kg.toFixed(1)} kg)`;
}

function hardware(plan) {
  const pieces = new Map();
  for (const one of plan.hardware) pieces.set(one.name, (pieces.get(one.name) ?? 0) + one.quantity);
  return [...pieces].sort(([a], [b]) => a.localeCompare(b));
}

/** Return how much of something is bought or done: `1 cabinet`, `2 cabinets`, `7.9 m²`. */
function amountOf({ quantity, unit }) {
  return `${figure(quantity)} ${quantity === 1 ? unit.replace(/s$/, "") : unit.replace("m2", "m²")}`;
}

function costs(held) {
  if (!held.lines.length) return [];
  const sums = [["Materials", held.materials], ["work", held.work], ["together", held.total]].filter(([, sum]) => sum !== null);
  const money = (amount) => [amount, held.currency].filter(Boolean).join(" ");
  return [
    el("h4", {}, "Costs"),
    table("Costs", ["For", "Quantity", "Amount"],
      held.lines.map((one) => [one.name || one.item, amountOf(one), one.amount === null ? one.note : money(one.amount)]), [2]),
    el("p", {}, sums.length ? `${sums.map(([name, sum]) => `${name} ${money(sum)}`).join(", ")}.` : "",
      held.missing ? ` ${counted(held.missing, "line")} without a price not counted.` : ""),
  ];
}
