// The tab of hanging: each place on the wall, its fasteners and what they carry, and the drawings to hang by.
import { el, figure, table } from "./basics.js";
import { drawing } from "./drawing.js";
import { figures } from "./stops.js";

const MM_PER_INCH = 25.4;
const KG_PER_POUND = 0.45359237;
const NEWTONS_PER_POUND_FORCE = 4.4482216152605;

export async function hanging(bench) {
  const { plan } = bench;
  if (!plan.mounting.length) return [el("p", {}, "Nothing is fixed to a wall: add “wall” with places for the cabinets, and the hanging is worked out.")];
  const cautions = [...new Set(plan.mounting.flatMap((one) => one.cautions))];
  return [
    el("ul", { class: "small" }, ...cautions.map((one) => el("li", {}, one))),
    ...plan.mounting.flatMap((one) => place(plan, one)),
    el("h4", {}, "The wall"),
    ...(await drawing(bench, "wall", "The wall")),
    el("h4", {}, "Fixing to the wall"),
    ...(await drawing(bench, "fixing", "Fixing to the wall")),
  ];
}

function place(plan, one) {
  const length = (mm) => (plan.units === "in" ? `${figure(mm / MM_PER_INCH, 5)} in` : `${figure(mm, 5)} mm`);
  const mass = (kg) => (plan.units === "in" ? `${figure(kg / KG_PER_POUND, 3)} lb` : `${figure(kg, 3)} kg`);
  const force = (n) => (plan.units === "in" ? `${figure(n / NEWTONS_PER_POUND_FORCE, 3)} lbf` : `${figure(n, 3)} N`);
  const standing = plan.run?.standings.find((other) => other.pointer === one.place);
  const name = standing?.name ?? one.cabinet;
  const floor = (standing?.low[2] ?? 0) * (plan.units === "in" ? MM_PER_INCH : 1); // of the case, over the floor
  const facts = [
    ["Weight with contents", force(one.weight_n)],
    one.use === null || one.use === undefined ? null : ["Hardest-worked fastener", `${figure(one.use * 100, 3)} % of what it holds`],
    one.likely ? ["Likely, and not to be counted on", `${figure(one.likely.use * 100, 3)} %: ${one.likely.taken}`] : null,
    one.given?.fastener ? ["Fastener", one.given.fastener] : null,
    one.given ? ["Contents", `${mass(one.given.contents_kg)}${one.given.contents_assumed ? ", assumed" : ""}`] : null,
    one.caught_studs_mm?.length ? ["Studs, from the wall’s left end", one.caught_studs_mm.map(length).join(", ")] : null,
    one.lift === undefined ? null : ["Lift to engage", `${figure(one.lift)} ${plan.units}`],
  ].filter(Boolean);
  const rows = (one.fasteners ?? []).map((f) => [
    length(f.at_mm), length(floor + one.given.cleat_low_mm + f.up_mm), force(f.pull_n), force(f.shear_n), `${figure(f.use * 100, 3)} %`,
  ]);
  const checks = plan.checks.filter((check) => check.subject === one.place && check.level !== "note");
  return [
    el("h4", {}, name),
    el("ul", { class: "plain" }, ...checks.map((check) => el("li", { class: check.level === "stop" ? "stop" : "care" }, el("strong", {}, check.level === "stop" ? "Stop: " : "Caution: "), check.message, figures(check)))),
    el("dl", { class: "facts" }, ...facts.flatMap(([term, value]) => [el("dt", {}, term), el("dd", {}, value)])),
    rows.length ? table(`Fasteners of ${name}`, ["From the wall’s left end", "Over the floor", "Pull", "Across", "Of what it holds"], rows, [0, 1, 2, 3, 4]) : null,
  ];
}
