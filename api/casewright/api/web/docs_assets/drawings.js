// The tab of drawings: which kind, then its sheets.
import { el } from "./basics.js";
import { drawing } from "./drawing.js";

const KINDS = [
  ["elevation", "Elevations"],
  ["section", "Sections"],
  ["isometric", "In the round, and taken apart"],
  ["wall", "The wall"],
  ["door", "Doors"],
  ["part", "Parts"],
  ["joint", "Joints"],
  ["fixing", "Fixing to the wall"],
  ["template", "Drilling templates"],
];
let kind = KINDS[0][0];

export async function drawings(bench) {
  const choice = el("select", { id: "drawing-kind" }, ...KINDS.map(([id, words]) => el("option", { value: id, selected: id === kind }, words)));
  const sheets = el("div", {});
  async function show() {
    kind = choice.value;
    const wanted = kind;
    const [, title] = KINDS.find(([id]) => id === wanted);
    const content = await drawing(bench, wanted, title).catch((error) => [el("p", { class: "care" }, `No drawing: ${error.message}.`)]);
    if (kind === wanted) sheets.replaceChildren(...content.filter(Boolean));
  }
  choice.addEventListener("change", show);
  await show();
  return [el("p", {}, el("label", { for: choice.id }, "Drawing"), choice), sheets];
}
