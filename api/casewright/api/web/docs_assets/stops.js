// What stops the work, and what cures it: stands over every tab, and in the tab of checks.
import { button, counted, el, figure } from "./basics.js";

/** Return the words of a check's figures, or nothing where it has none. */
export function figures(check) {
  const one = (value) => `${typeof value === "number" ? figure(value) : value}${check.unit ? ` ${check.unit}` : ""}`;
  const parts = [];
  if (check.value !== null) parts.push(one(check.value));
  if (check.limit !== null) parts.push(`limit ${one(check.limit)}`);
  return parts.length ? ` (${parts.join("; ")})` : "";
}

/** Return the box that stands over the tabs, or null where nothing stops. `looking` has cures looked for at once. */
export function stopBox(bench, looking) {
  const groups = grouped(bench.plan.checks.filter((check) => check.level === "stop"));
  if (!groups.length) return null;
  const shown = new Set();
  const items = groups.map((checks) => el("li", {},
    el("strong", {}, checks[0].message), ...checks.map((check) => where(bench, check)), cureList(bench, checks, shown)));
  const first = el("ul", { class: "plain" }, ...items.slice(0, 4));
  const rest = items.length > 4
    ? el("details", {}, el("summary", {}, `${items.length - 4} more`), el("ul", { class: "plain" }, ...items.slice(4))) : null;
  return el("section", { class: "stop-box", "aria-labelledby": "stop-heading" },
    el("h3", { id: "stop-heading" }, `STOP: ${counted(bench.plan.stops, "reason")} not to cut`), first, rest, search(bench, looking));
}

/** Return what a check is about: a place on the wall by the cabinet's name there, all else as it is. */
function inWords(subject, made) {
  const [, id, place] = /^\/wall\/cabinets_at\/([^/]+)\/(\d+)$/.exec(subject) ?? [];
  if (!id) return subject || "the job";
  const several = made.some((row) => (row.cabinet === id && row.count > 1) || row.cabinet.startsWith(`${id} `));
  return `${id}${several ? ` ${Number(place) + 1}` : ""} on the wall`;
}

/** Return what a check is about, to be shown in the job. */
export function where(bench, check) {
  const shown = `${inWords(check.subject, bench.plan.summary)}${figures(check)}`;
  return el("div", { class: "where" },
    bench.editor.canShow(check.subject) ? button(shown, () => bench.editor.show(check.subject), { class: "plain", title: "Show it in the job" }) : shown);
}

/** Return the cures found of like stops, each with a button that makes the change in the job.
 *
 * `shown` takes note of them: one that stands above already is not told again. Of stops of several things, each cure
 * says which of them it is for.
 */
export function cureList(bench, checks, shown = new Set()) {
  if (!bench.cures) return null;
  const entries = checks.map((check) => bench.cures.cures.find((one) => one.check.code === check.code && one.check.subject === check.subject)).filter(Boolean);
  const different = new Map();
  for (const { check, cures } of entries) {
    for (const cure of cures) {
      const patch = JSON.stringify(cure.patch);
      different.set(patch, { cure, subjects: [...(different.get(patch)?.subjects ?? []), inWords(check.subject, bench.plan.summary)] });
    }
  }
  if (!different.size) {
    const why = [...new Set(entries.map((one) => one.why_none).filter(Boolean))].join(" ");
    return why ? el("p", { class: "small" }, `No cure found. ${why}`) : null;
  }
  const fresh = [...different].filter(([patch]) => !shown.has(patch)).map(([, one]) => one);
  for (const patch of different.keys()) shown.add(patch);
  if (!fresh.length) return el("p", { class: "small" }, "The change above clears this too.");
  return el("ul", { class: "cures" }, ...fresh.map(({ cure, subjects }) => cureShown(bench, cure, checks.length > 1 ? ` for ${listed(subjects)}` : "")));
}

function cureShown(bench, cure, whose) {
  const left = noted(`Leaves ${counted(cure.leaves.length, "stop")} there:`, cure.leaves);
  const brought = noted(`Brings ${counted(cure.raises.length, "other check")}:`, cure.raises);
  return el("li", {},
    `Cure${whose}: ${cure.words}. `, el("span", { class: "small" }, outcome(bench, cure)), left, brought, " ",
    bench.editor.patch && button("Make this change", () => bench.change(cure), { "aria-label": `Make this change${whose}: ${cure.words}` }));
}

function outcome(bench, cure) {
  const words = [`Clears ${counted(cure.clears, "stop")}`];
  if (cure.cost !== null) words.push(`costs ${[cure.cost, bench.cures.currency].filter(Boolean).join(" ")} more${cure.unpriced ? ", not all of it priced" : ""}`);
  words.push(`${counted(cure.parts_changed, "part")} made otherwise`);
  return `${words.join("; ")}.`;
}

/** Return checks that a cure leaves or brings, each in a row of its own, like ones once; nothing where there are none. */
function noted(heading, checks) {
  if (!checks.length) return null;
  const messages = [...new Set(checks.map((one) => `${one.message}${figures(one)}`))];
  return el("div", { class: "small" }, heading, el("ul", {}, ...messages.map((one) => el("li", {}, one))));
}

/** Return names as words: `a`, `a and b`, `a, b and c`. */
function listed(names) {
  return [names.slice(0, -1).join(", "), names.at(-1)].filter(Boolean).join(" and ");
}

function search(bench, looking) {
  if (bench.cures) return null;
  const words = el("span", { role: "status" });
  const start = button("Look for cures", look);
  async function look() {
    start.disabled = true;
    try {
      await bench.findCures((done, of) => {
        words.textContent = `Looking for cures: ${done} of at most ${of} tried …`;
      });
    } catch (error) {
      words.textContent = error.name === "AbortError" ? "" : `No cures: ${error.message}.`;
    }
    start.disabled = false;
  }
  if (looking) look();
  return el("p", { class: "row" }, start, words);
}

function grouped(stops) {
  const groups = new Map();
  for (const check of stops) {
    const name = `${check.code} ${check.message}`;
    groups.set(name, [...(groups.get(name) ?? []), check]);
  }
  return [...groups.values()];
}
