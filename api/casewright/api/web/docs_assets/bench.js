// The bench: a job in the editor, planned at the press of a button and after each pause in typing; its answers in tabs.
import { RefusedError, counted, el, getJson, save, send, useKey } from "./basics.js";
import { cabinets } from "./cabinets.js";
import { checks } from "./checks.js";
import { cutList } from "./cut_list.js";
import { drawings } from "./drawings.js";
import { hanging } from "./hanging.js";
import { model } from "./model.js";
import { plainEditor } from "./plain_editor.js";
import { steps } from "./steps.js";
import { stock } from "./stock.js";
import { stopBox } from "./stops.js";
import { tabs } from "./tabs.js";
import { tidy } from "./tidy.js";

const PAUSE_MS = 900;
/** A plan that took longer than this is made anew by the button alone, so that typing does not keep the service busy. */
const QUICK_MS = 4000;
const TABS = [
  ["cabinets", "Cabinets", cabinets],
  ["cut-list", "Cut list", cutList],
  ["drawings", "Drawings", drawings],
  ["steps", "Steps", steps],
  ["stock", "Stock", stock],
  ["hanging", "Hanging", hanging],
  ["checks", "Checks", checks],
  ["model", "3D view", model],
];

const at = (id) => document.getElementById(id);

/** What the tabs work with: the plan shown, the text it was made of, its cures once looked for, and what they may do. */
const bench = {
  plan: null,
  body: "",
  cures: null,
  editor: null,
  send: (path) => send(path, bench.body, sending?.signal),
  saver: (words, path, name) => saver(words, path, name),
  keep: save,
  findCures,
  change,
  say,
};
let shown = null;
let sending = null;
let pause = 0;
let quick = true;

/** Make the bench ready. `described` is the promise of openapi.json, whose schemas say what may be written. */
export async function readyBench(described) {
  bench.editor = plainEditor(at("editor"), changed);
  at("job-form").addEventListener("submit", (event) => {
    event.preventDefault();
    planJob(true);
  });
  at("save-job").addEventListener("click", () => save(new Blob([bench.editor.text()], { type: "application/json" }), "job.json"));
  at("open-job").addEventListener("change", async (event) => {
    const [file] = event.target.files;
    if (!file) return;
    at("example").selectedIndex = -1; // none of them, and each may be begun from again
    bench.editor.set(await file.text());
  });
  at("open-job").addEventListener("click", (event) => {
    event.target.value = ""; // the same file may be opened again
  });
  at("key").addEventListener("change", () => {
    useKey(at("key").value);
    if (!at("example").options.length) readyExamples();
    else planJob(false);
  });
  at("key").addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault(); // there may be no job yet to send
    at("example").focus();
  });
  readyEditor(described);
  await readyExamples();
}

/** Put the editor in place of the plain field once that is in sight; where it cannot be had, the field stays. */
function readyEditor(described) {
  if (!("adoptedStyleSheets" in document)) return;
  const schemas = described.then((description) => description.components.schemas);
  const seen = new IntersectionObserver(async ([entry]) => {
    if (!entry.isIntersecting) return;
    seen.disconnect();
    const { openEditor } = await import("./editor.js");
    bench.editor = openEditor(at("editor"), bench.editor, schemas, changed);
    if (bench.plan && bench.body === bench.editor.text()) shown.refresh();
  });
  seen.observe(at("editor"));
}

async function readyExamples() {
  try {
    const { examples } = await getJson("v1/examples");
    at("example").append(...examples.map((one) => el("option", { value: one.name }, one.title)));
    const begin = () => {
      at("open-job").value = "";
      bench.editor.set(tidy(examples.find((one) => one.name === at("example").value).job));
    };
    at("example").addEventListener("change", begin);
    begin();
  } catch (error) {
    if (error instanceof RefusedError && error.status === 401) askForKey();
    else say(`The examples cannot be shown: ${error.message}.`);
  }
}

function askForKey() {
  at("key-row").hidden = false;
  say("This service asks for a key.");
}

function say(words) {
  if (at("status").textContent !== words) at("status").textContent = words;
}

function changed() {
  clearTimeout(pause);
  sending?.abort();
  sending = null;
  const broken = bench.editor.broken();
  if (broken) return say(`Line ${broken.line}: ${broken.words}`);
  const before = bench.plan ? "Changed; the plan shown is of the job as it was." : "";
  say(quick ? before : `${before} Plans of it take a while: press “Plan this job” for a new one.`);
  if (quick) pause = setTimeout(() => planJob(false), PAUSE_MS);
}

/** Plan the job as it stands. `pressed` is whether somebody asked for it, and gets the result in focus. */
async function planJob(pressed) {
  clearTimeout(pause);
  sending?.abort();
  sending = new AbortController();
  const { signal } = sending;
  const body = bench.editor.text();
  const since = performance.now();
  say("Working it out …");
  try {
    const answer = await send("v1/plan", body, signal);
    const content = await answer.json();
    if (signal.aborted) return;
    quick = performance.now() - since < QUICK_MS;
    if (answer.status === 401) {
      askForKey();
      if (pressed) at("key").focus();
      return;
    }
    if (answer.ok) await showPlan(content, body, pressed);
    else showProblem(content);
    if (pressed) at(answer.ok ? "result" : "problems").focus();
  } catch (error) {
    if (error.name !== "AbortError") say(`No answer from the service: ${error.message}.`);
  }
}

async function showPlan(plan, body, pressed) {
  Object.assign(bench, { plan, body, cures: null });
  bench.editor.mark([], plan.checks.filter((check) => check.level === "stop"));
  at("problems").replaceChildren();
  at("result").classList.remove("stale");
  const title = el("h3", {}, plan.title || "The plan");
  shown ??= tabs("The plan", TABS.map(([id, words, make]) => [id, words, () => make(bench)]));
  if (!shown.elements[0].isConnected) at("result").replaceChildren(el("div", { id: "verdict" }), ...shown.elements);
  at("verdict").replaceChildren(title, verdict(plan));
  shown.refresh();
  showStops(pressed);
  say(plan.stops ? `Planned: ${counted(plan.stops, "reason")} not to cut.` : "Planned: no check says stop.");
}

function showStops(looking) {
  at("verdict").querySelector(".stop-box")?.remove();
  at("verdict").append(...[stopBox(bench, looking)].filter(Boolean));
}

function verdict(plan) {
  if (plan.stops) return "";
  const cautions = plan.checks.filter((check) => check.level === "caution").length;
  return el("p", {}, `No check says stop${cautions ? `; read the ${counted(cautions, "caution")} before cutting` : ""}.`);
}

function showProblem(problem) {
  bench.editor.mark(problem.errors, []);
  at("result").classList.add("stale");
  const rows = problem.errors.map((one) => {
    const words = one.rule === "needed" ? ` is needed. ${one.fix}` : `: needs ${one.rule}; got ${one.got}. ${one.fix}`;
    const place = el("button", { type: "button", class: "plain" }, one.pointer || "The whole job");
    place.addEventListener("click", () => bench.editor.show(one.pointer));
    const line = bench.editor.line(one.pointer);
    return el("li", { class: "stop" }, line ? `Line ${line}, ` : null, place, words);
  });
  at("problems").replaceChildren(el("h3", {}, problem.title), el("ul", { class: "plain" }, ...rows));
  say(`The job cannot be planned as it stands. ${problem.detail}${bench.plan ? " The plan shown is of the job as it was." : ""}`);
}

/** Look for cures of the plan's stops, and show them. `report` gets how many were tried, and of how many. */
async function findCures(report) {
  const { plan } = bench;
  const answer = await bench.send("v1/cures?as=ndjson");
  if (!answer.ok) throw new RefusedError("v1/cures", answer.status);
  const cures = await lastLine(answer, report);
  if (bench.plan !== plan) return;
  bench.cures = cures;
  showStops();
  shown.refresh("checks");
}

/** Read lines of progress to the result in the last of them. */
async function lastLine(answer, report) {
  const reader = answer.body.pipeThrough(new TextDecoderStream()).getReader();
  let text = "";
  for (;;) {
    const { done, value } = await reader.read();
    const lines = (text + (value ?? "")).split("\n");
    text = done ? "" : lines.pop();
    for (const line of lines.filter(Boolean).map((one) => JSON.parse(one))) {
      if (line.progress) report(line.progress.done, line.progress.of);
      else if (line.problem) throw new Error(line.problem.detail);
      else return line.result;
    }
    if (done) throw new Error("the answer broke off");
  }
}

/** Make a cure's change in the job, and plan it. */
async function change(cure) {
  bench.editor.patch(cure.patch);
  await planJob(true);
}

function saver(words, path, name) {
  const pressed = el("button", { type: "button", class: "plain" }, words);
  pressed.addEventListener("click", async () => {
    pressed.disabled = true;
    say(`Making ${name} …`);
    try {
      const answer = await bench.send(path);
      if (!answer.ok) throw new RefusedError(path, answer.status);
      save(await answer.blob(), name);
      say(`${name} is saved.`);
    } catch (error) {
      say(`${name} is not saved: ${error.message}.`);
    }
    pressed.disabled = false;
  });
  return pressed;
}
