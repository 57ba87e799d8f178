// The tab of steps: the order of work by stage, each step with a box to tick.
import { button, counted, el } from "./basics.js";

export function steps(bench) {
  const { plan } = bench;
  if (!plan.steps.length) return [el("p", {}, "This job has no steps.")];
  const ticked = new Set(plan.steps.filter((step) => step.done).map((step) => step.number));
  const many = el("p", { role: "status" });
  const count = () => {
    many.textContent = `${ticked.size} of ${counted(plan.steps.length, "step")} ticked.`;
  };
  const tick = (step, on) => {
    if (on) ticked.add(step.number);
    else ticked.delete(step.number);
    count();
  };
  count();
  const write = bench.editor.patch && button("Write the ticks into the job", () => {
    const value = [...ticked].sort((a, b) => a - b);
    bench.editor.patch([{ op: "add", path: "/done", value }]);
  });
  return [
    el("p", { class: "row" }, many, write, bench.saver("Steps (CSV)", "v1/steps?as=csv", "steps.csv")),
    el("p", { class: "small" }, "Ticks stay on this page; written into the job, they are saved with it, and the plan counts what is left."),
    ...runs(plan.steps).map((some) => stageShown(some, ticked, tick)),
  ];
}

/** Return the steps in their order, those of one stage that follow each other together. */
function runs(steps) {
  const made = [];
  for (const step of steps) {
    if (made.at(-1)?.[0].stage === step.stage) made.at(-1).push(step);
    else made.push([step]);
  }
  return made;
}

function stageShown(some, ticked, tick) {
  const everywhere = cautionsByMachine(some);
  const general = [...everywhere].filter(([, cautions]) => cautions.length).map(([machine, cautions]) => el("p", { class: "caution small" }, `At the ${spaced(machine)}: ${cautions.join(" ")}`));
  return el("details", { open: true, class: "stage" },
    el("summary", {}, el("strong", {}, capital(spaced(some[0].stage))), ` ${counted(some.length, "step")}`),
    ...general,
    el("ol", { class: "plain" }, ...some.map((step) => stepShown(step, everywhere.get(step.machine), ticked, tick))));
}

/** Return by machine what is minded at each of a stage's steps there: it is shown once, over them. */
function cautionsByMachine(some) {
  const shared = new Map();
  for (const step of some) {
    const before = shared.get(step.machine);
    shared.set(step.machine, before ? before.filter((one) => step.cautions.includes(one)) : step.cautions);
  }
  return shared;
}

function stepShown(step, general, ticked, tick) {
  const box = el("input", { type: "checkbox", id: `step-${step.number}`, checked: ticked.has(step.number) });
  box.addEventListener("change", () => tick(step, box.checked));
  const special = step.cautions.filter((one) => !general.includes(one));
  return el("li", { class: "step" }, box, el("div", {},
    el("label", { for: box.id }, el("strong", {}, `${step.number}.`), ` ${step.do}`),
    step.lines.length ? el("ul", { class: "small" }, ...step.lines.map((line) => el("li", {}, line))) : null,
    step.check ? el("p", { class: "small" }, `Check: ${step.check}.`) : null,
    special.length ? el("p", { class: "caution small" }, special.join(" ")) : null));
}

function spaced(word) {
  return word.replaceAll("-", " ");
}

function capital(word) {
  return word[0].toUpperCase() + word.slice(1);
}
