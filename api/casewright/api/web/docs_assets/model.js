// The tab of the model: the cabinets in the round, turned by hand, by keys and by buttons. Where this browser draws no
// such thing, the drawing stands for it.
import { button, el } from "./basics.js";
import { drawing } from "./drawing.js";

const VIEWS = [
  ["From a corner", [0.7, 0.5, 1]],
  ["From the front", [0, 0, 1]],
  ["From the left", [-1, 0, 0]],
  ["From above", [0, 1, 0.001]],
];
let before = null;

export async function model(bench) {
  before?.leave();
  before = null;
  if (!document.createElement("canvas").getContext("webgl2")) {
    return [
      el("p", {}, "This browser draws no 3D picture: WebGL is switched off, or missing. The drawing stands here instead."),
      ...(await drawing(bench, "isometric", "In the round, and taken apart")),
    ];
  }
  if (!bench.plan.parts.length) return [el("p", {}, "This job has no parts.")];
  const [answer, { openViewer }] = await Promise.all([bench.send("v1/model"), import("./viewer.js")]);
  if (!answer.ok) return [el("p", {}, (await answer.json()).detail)];

  const canvas = el("canvas", { tabindex: "0", role: "img", "aria-describedby": "model-help" });
  const words = el("p", { role: "status" });
  const parts = el("select", { id: "model-part" }, el("option", { value: "" }, "None"), ...bench.plan.parts.map((part) => el("option", { value: part.id }, part.id)));
  const viewer = await openViewer(canvas, await answer.arrayBuffer(), pick);
  before = viewer;

  function pick(id) {
    const part = bench.plan.parts.find((one) => one.id === id);
    parts.value = part ? id : "";
    viewer.lightUp(parts.value);
    words.textContent = part ? `${part.name}: ${part.text.length} × ${part.text.width} × ${part.text.thickness}, ${part.material}` : "";
  }
  parts.addEventListener("change", () => pick(parts.value));
  canvas.setAttribute("aria-label", `The cabinets of “${bench.plan.title || "this job"}” in the round`);
  const fronts = bench.plan.doors.flatMap((door) => door.parts);
  return [
    el("p", { class: "row" },
      ...VIEWS.map(([name, from]) => button(name, () => viewer.look(from))),
      tick("model-apart", "Taken apart", false, (on) => viewer.takeApart(on)),
      fronts.length ? tick("model-doors", "With doors", true, (on) => viewer.hide(on ? [] : fronts)) : null),
    el("div", { class: "model" }, canvas),
    el("p", { class: "row" },
      button("Turn left", () => viewer.turn(-1, 0)), button("Turn right", () => viewer.turn(1, 0)),
      button("Turn up", () => viewer.turn(0, 1)), button("Turn down", () => viewer.turn(0, -1)),
      button("Nearer", () => viewer.nearer(1)), button("Farther", () => viewer.nearer(-1))),
    el("p", { id: "model-help", class: "small" }, "Drag to turn it; with the picture in focus, arrows turn it, + and − bring it nearer and farther, and so does the wheel."),
    el("p", {}, el("label", { for: "model-part" }, "Part to light up, or click on it"), parts),
    words,
    el("p", { class: "row" }, bench.saver("Solid model (GLB)", "v1/model", "model.glb"), bench.saver("Taken apart (GLB)", "v1/model?exploded=true", "model-apart.glb")),
  ];
}

function tick(id, words, checked, act) {
  const box = el("input", { type: "checkbox", id, checked });
  box.addEventListener("change", () => act(box.checked));
  return el("span", { class: "choice" }, box, el("label", { for: id }, words));
}
