// The tab of hanging: each place on the wall, its fasteners and what they carry, and the drawings to hang by.
import { el, figure, table } from "./basics.js";
import { drawing } from "./drawing.js";
import { tapeText } from "./lengths.js";
import { figures } from "./stops.js";

const KG_PER_POUND = 0.45359237;
const NEWTON_METRES_PER_POUND_FOOT = 1.3558179483314004;
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

/** Write quantities in the units of a plan's job. */
function writer({ units, tape }) {
  const inches = units === "in";
  return {
    length: (mm) => tapeText(mm, units, tape),
    own: (size) => tapeText(size * (inches ? 25.4 : 1), units, tape),
    mass: (kg) => (inches ? `${figure(kg / KG_PER_POUND, 3)} lb` : `${figure(kg, 3)} kg`),
    force: (n) => (inches ? `${figure(n / NEWTONS_PER_POUND_FORCE, 3)} lbf` : `${figure(n, 3)} N`),
    moment: (newtonMetres) => (inches ? `${figure(newtonMetres / NEWTON_METRES_PER_POUND_FOOT, 3)} lbf·ft` : `${figure(newtonMetres, 3)} N·m`),
    share: (part) => `${figure(part * 100, 3)} %`,
  };
}

function place(plan, one) {
  const write = writer(plan);
  const name = plan.run?.standings.find((standing) => standing.pointer === one.pointer)?.name ?? one.cabinet;
  const facts = factsOf(plan, one, write).filter(([, value]) => value);
  const rows = (one.fasteners ?? []).map((f) => [
    write.length(f.at_mm), write.length(one.given.strip_over_floor_mm + f.up_mm), write.force(f.pull_n), write.force(f.shear_n), write.share(f.use),
  ]);
  const checks = plan.checks.filter((check) => check.subject === one.pointer && check.level !== "note");
  return [
    el("h4", {}, name),
    el("ul", { class: "plain" }, ...checks.map((check) => el("li", { class: check.level === "stop" ? "stop" : "care" }, el("strong", {}, check.level === "stop" ? "Stop: " : "Caution: "), check.message, figures(check)))),
    el("dl", { class: "facts" }, ...facts.flatMap(([term, value]) => [el("dt", {}, term), el("dd", {}, value)])),
    rows.length ? table(`Fasteners of ${name}`, ["From the wall’s left end", "Over the floor", "Pull", "Across", "Of what it holds"], rows, [0, 1, 2, 3, 4]) : null,
  ];
}

/** Return what is told of a place, `[term, value]`, the value null where the plan does not have it. */
function factsOf(plan, one, write) {
  const given = one.given ?? {};
  const some = (value, words) => (value === undefined || value === null ? null : words(value));
  return [
    ["Weight with contents", some(one.weight_n, write.force)],
    ["Contents", some(given.contents_kg, (kg) => `${write.mass(kg)}${given.contents_assumed ? ", assumed" : ""}`)],
    ["Stands by itself", some(one.stands, yesOrNo)],
    ["Stands with a person leaning on it", some(one.stands_leaned_on, yesOrNo)],
    ["Tips it, by itself", some(one.tipping_n_m, write.moment)],
    ["Keeps it up", some(one.holding_n_m, (moment) => `${write.moment(moment)}; asked for is ${figure(one.tip_margin, 3)} times what tips it`)],
    ["Fastener", some(given.fastener, String)],
    ["Hardest-worked fastener", some(one.use, (use) => `${write.share(use)} of what it holds`)],
    ["Likely, and not to be counted on", some(one.likely, ({ use, taken }) => `${write.share(use)}: ${taken}`)],
    ["Studs, from the wall’s left end", one.caught_studs_mm?.map(write.length).join(", ") || null],
    ["Lift to engage", one.lift ? write.own(one.lift) : null],
  ];
}

function yesOrNo(is) {
  return is ? "yes" : "no";
}
