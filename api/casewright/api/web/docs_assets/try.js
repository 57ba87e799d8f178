// The form: an example job, changed at will, planned; its checks, elevation and cut list shown.
import { base, el, getJson } from "./basics.js";

const at = (id) => document.getElementById(id);
let shownDrawing = "";

export async function readyForm() {
  at("try-form").addEventListener("submit", (event) => {
    event.preventDefault();
    planJob();
  });
  try {
    const { examples } = await getJson("v1/examples");
    for (const one of examples) at("example").append(el("option", { value: one.name }, one.title));
    const show = () => {
      at("job").value = JSON.stringify(examples.find((one) => one.name === at("example").value).job, null, 2);
    };
    at("example").addEventListener("change", show);
    show();
  } catch (error) {
    say(`The examples cannot be shown: ${error.message}.`);
  }
}

function say(words) {
  at("status").textContent = words;
}

function send(path, body) {
  return fetch(new URL(path, base), { method: "POST", body, headers: { "Content-Type": "application/json" } });
}

async function planJob() {
  const body = at("job").value;
  const button = at("try-form").querySelector("button");
  button.disabled = true;
  say("Working it out …");
  try {
    const answer = await send("v1/plan", body);
    const held = await answer.json();
    at("result").replaceChildren(...(answer.ok ? await planShown(held, body) : problemShown(held)));
    say(answer.ok ? "Done; the plan is below." : "The job cannot be planned as it stands; the reasons are below.");
    at("result").focus();
  } catch (error) {
    say(`No answer from the service: ${error.message}.`);
  } finally {
    button.disabled = false;
  }
}

function problemShown(problem) {
  const rows = problem.errors.map((one) => el("li", { class: "stop" },
    el("strong", {}, one.pointer || "The whole job"),
    one.rule === "needed" ? ` is needed. ${one.fix}` : `: needs ${one.rule}; got ${one.got}. ${one.fix}`));
  return [el("h3", {}, problem.title), el("p", {}, problem.detail), el("ul", { class: "plain" }, ...rows)];
}

async function planShown(plan, body) {
  return [
    el("h3", {}, plan.title || "The plan"),
    verdict(plan),
    cabinetTable(plan),
    filesRow(body),
    el("h3", {}, "Checks"),
    ...checksShown(plan.checks),
    el("h3", {}, "Elevation"),
    await elevation(body),
    el("h3", {}, "Cut list"),
    cutList(plan),
    reasons(plan),
  ];
}

function verdict(plan) {
  const stops = plan.checks.filter((check) => check.level === "stop").length;
  const cautions = plan.checks.filter((check) => check.level === "caution").length;
  if (stops) return el("p", { class: "stop" }, el("strong", {}, `Do not cut: ${stops} of the checks say stop.`));
  return el("p", {}, `No check says stop; read ${cautions === 1 ? "the caution" : `the ${cautions} cautions`} before cutting.`);
}

function table(label, heading, rows, numbers = []) {
  const cell = (tag, text, i) => el(tag, { class: numbers.includes(i) ? "number" : null, scope: tag === "th" ? "col" : null }, text);
  return el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": label }, el("table", {},
    el("thead", {}, el("tr", {}, ...heading.map((text, i) => cell("th", text, i)))),
    el("tbody", {}, ...rows.map((row) => el("tr", {}, ...row.map((text, i) => cell("td", text, i)))))));
}

function cabinetTable(plan) {
  const rows = plan.summary.map((one) => [
    one.cabinet, String(one.count), one.text,
    one.mass_kg === undefined ? "" : `${one.mass_kg.toFixed(1)} kg${one.mass_lb === undefined ? "" : ` (${one.mass_lb.toFixed(0)} lb)`}`,
    one.hands === undefined ? "" : String(one.hands),
  ]);
  return table("Cabinets", ["Cabinet", "To make", "Width × height × depth", "Weight of each", "People to lift it"], rows, [1, 4]);
}

function filesRow(body) {
  const save = (words, path, name) => {
    const button = el("button", { type: "button" }, words);
    button.addEventListener("click", async () => {
      const answer = await send(path, body);
      if (!answer.ok) return say(`${words}: the service answered ${answer.status}.`);
      const address = URL.createObjectURL(await answer.blob());
      const link = el("a", { href: address, download: name });
      link.click();
      setTimeout(() => URL.revokeObjectURL(address), 60000);
      return say(`${name} is saved.`);
    });
    return button;
  };
  return el("p", { class: "row" },
    save("Save the booklet (PDF)", "v1/booklet", "booklet.pdf"),
    save("Save the workbook (XLSX)", "v1/workbook", "workbook.xlsx"),
    save("Save the parts (CSV)", "v1/parts?as=csv", "parts.csv"));
}

const LEVELS = [["stop", "stop", "Stop"], ["caution", "care", "Caution"], ["note", "", "Note"]];

function checksShown(checks) {
  const made = LEVELS.map(([level, mark, word]) => {
    const found = checks.filter((check) => check.level === level);
    if (!found.length) return null;
    const list = el("ul", { class: "plain" }, ...found.map((check) => el("li", { class: mark },
      el("strong", {}, `${word}, ${check.subject}: `), check.message, figures(check),
      check.source ? el("span", { class: "small" }, ` Source: ${check.source}.`) : null)));
    return level === "note" ? el("details", {}, el("summary", {}, `${found.length} notes: what was looked at and holds`), list) : list;
  });
  const kept = made.filter(Boolean);
  return kept.length ? kept : [el("p", {}, "Nothing to report.")];
}

function figures(check) {
  const one = (value) => `${typeof value === "number" ? Number(value.toPrecision(4)) : value}${check.unit ? ` ${check.unit}` : ""}`;
  const said = [];
  if (check.value !== null) said.push(one(check.value));
  if (check.limit !== null) said.push(`limit ${one(check.limit)}`);
  return said.length ? ` (${said.join("; ")})` : "";
}

async function elevation(body) {
  const image = el("img", { alt: "" });
  const words = el("figcaption", { class: "small" });
  let sheet = 1;
  let sheets = 1;
  const step = (by, label) => {
    const button = el("button", { type: "button" }, label);
    button.addEventListener("click", () => show(sheet + by));
    return button;
  };
  const back = step(-1, "Previous cabinet");
  const on = step(1, "Next cabinet");
  async function show(wanted) {
    const answer = await send(`v1/drawings/elevation?as=svg&page=${wanted}`, body);
    if (!answer.ok) {
      words.textContent = (await answer.json()).detail;
      image.hidden = true;
      return;
    }
    sheet = wanted;
    sheets = Number(answer.headers.get("Casewright-Pages") ?? 1);
    const drawing = await answer.text();
    URL.revokeObjectURL(shownDrawing);
    shownDrawing = URL.createObjectURL(new Blob([drawing], { type: "image/svg+xml" }));
    image.src = shownDrawing;
    image.alt = new DOMParser().parseFromString(drawing, "image/svg+xml").querySelector("title")?.textContent ?? "Elevation";
    words.textContent = `${image.alt}; sheet ${sheet} of ${sheets}`;
    back.disabled = sheet <= 1;
    on.disabled = sheet >= sheets;
  }
  await show(1);
  const frame = el("div", { class: "wide", tabindex: "0", role: "region", "aria-label": "Elevation, to scroll" }, image);
  return el("figure", {}, frame, words, sheets > 1 ? el("p", { class: "row" }, back, on) : null);
}

function cutList(plan) {
  const rows = plan.parts.map((part) => [
    part.id, part.name, String(part.quantity), part.text.length, part.text.width, part.text.thickness, part.material,
  ]);
  return table("Cut list", ["Part", "Name", "Pieces", "Length", "Width", "Thickness", "Material"], rows, [2, 3, 4, 5]);
}

function reasons(plan) {
  const sum = (terms) => terms.map((one, i) => `${one.value < 0 ? "− " : i ? "+ " : ""}${one.term} ${Number(Math.abs(one.value).toPrecision(10))}`).join(" ");
  const rows = plan.parts.flatMap((part) => [
    el("dt", {}, el("strong", {}, part.id)),
    el("dd", {}, `length ${part.length} = ${sum(part.why.length)}`),
    el("dd", {}, `width ${part.width} = ${sum(part.why.width)}`),
  ]);
  return el("details", {}, el("summary", {}, "Why each part is that size"), el("dl", { class: "small" }, ...rows));
}
