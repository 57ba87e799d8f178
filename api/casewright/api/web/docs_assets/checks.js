// The tab of checks: every one, by level, stops with their cures.
import { el } from "./basics.js";
import { cureList, where } from "./stops.js";

const LEVELS = [["stop", "Stop", "stop"], ["caution", "Caution", "care"], ["note", "Note", null]];
const wanted = new Set(["stop", "caution"]);

export function checks(bench) {
  const every = bench.plan.checks;
  const list = el("ul", { class: "plain" });
  const boxes = LEVELS.map(([level, word]) => {
    const box = el("input", { type: "checkbox", id: `level-${level}`, checked: wanted.has(level) });
    box.addEventListener("change", () => {
      if (box.checked) wanted.add(level);
      else wanted.delete(level);
      show();
    });
    return el("span", { class: "choice" }, box, el("label", { for: box.id }, `${word} (${every.filter((check) => check.level === level).length})`));
  });
  function show() {
    const chosen = LEVELS.filter(([level]) => wanted.has(level)).flatMap(([level, word, mark]) => every
      .filter((check) => check.level === level)
      .map((check) => el("li", { class: mark }, el("strong", {}, `${word}: `), check.message, where(bench, check),
        check.source ? el("span", { class: "small" }, `Source: ${check.source}`) : null,
        level === "stop" ? cureList(bench, [check]) : null)));
    list.replaceChildren(...(chosen.length ? chosen : [el("li", {}, "None of these.")]));
  }
  show();
  return [
    el("fieldset", {}, el("legend", {}, "Show"), ...boxes),
    list,
    el("p", { class: "row" }, bench.saver("Checks (CSV)", "v1/checks?as=csv", "checks.csv")),
  ];
}
