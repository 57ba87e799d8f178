// Work at the bench of /docs in headless Chromium: write, break, mend, complete, cure, tick. Prints what was found.
// Arguments: address of the page, Chromium's path, files with jobs: one stops for want of a higher strip, one at two cabinets.
import { readFileSync } from "node:fs";
import { faults, launch, open } from "./browser.mjs";

const [address, executablePath, stopping, two] = process.argv.slice(2);
const GOOD = `{
  "units": "mm",
  "materials": {"ply": {"kind": "sheet", "stuff": "birch-plywood", "thickness": 18}},
  "cabinets": [
    {"id": "tools", "width": 600, "height": 700,
     "depth": 300,
     "case": {"material": "ply"}}
  ]
}
`;
const browser = await launch(executablePath, "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader");
const seen = {};
const { page } = await open(browser, address, { viewport: { width: 1280, height: 900 }, reducedMotion: "reduce" }, seen);

/** Open a job, and wait till the editor has it: from then on the status is of this job. */
async function begin(text) {
  await page.setInputFiles("#open-job", { name: "job.json", mimeType: "application/json", buffer: Buffer.from(text) });
  const [first, second] = text.split("\n");
  await page.waitForFunction((start) => {
    const shown = document.getElementById("job").shadowRoot.querySelectorAll(".cm-line");
    return start.every((line, i) => shown[i]?.textContent === line);
  }, [first, second]);
}
const status = (words) => page.waitForFunction((part) => document.getElementById("status").textContent.includes(part), words);
/** Wait till the service has answered. Where it was slow, as a busy machine is, the page waits for the button. */
async function answered(words) {
  await page.waitForFunction((part) => [part, "press"].some((one) => document.getElementById("status").textContent.includes(one)), words);
  if ((await page.textContent("#status")).includes("press")) await page.getByRole("button", { name: "Plan this job" }).click();
  await status(words);
}
const lines = () => page.locator("#job .cm-line").allTextContents();
/** Return the lines, counted from 1, on which something is marked as an error. */
const marked = () => page.evaluate(() => {
  const root = document.getElementById("job").shadowRoot;
  const all = [...root.querySelectorAll(".cm-line")];
  return [...new Set([...root.querySelectorAll(".cm-lintRange-error, .cm-lintPoint-error")].map((mark) => all.indexOf(mark.closest(".cm-line")) + 1))];
});
const signs = () => page.locator("#job .cm-lint-marker-error").count();
async function toLine(number) {
  await page.locator("#job .cm-line").nth(number - 1).click();
}
async function rewrite(number, text) {
  await toLine(number);
  await page.keyboard.press("End");
  await page.keyboard.press("Shift+Home");
  await page.keyboard.insertText(text);
}

await page.locator("#job .cm-line").nth(9).waitFor();
await answered("Planned");
// Every other example, every tab: what they say.
seen.examples = {};
for (const name of (await page.$$eval("#example option", (all) => all.map((one) => one.value))).slice(1)) {
  await page.selectOption("#example", name);
  await answered("Planned");
  seen.examples[name] = {};
  for (const tab of await page.getByRole("tab").allTextContents()) {
    if (tab === "3D view") continue;
    await page.getByRole("tab", { name: tab }).click();
    await page.locator("[role=tabpanel]:not([hidden]):not([aria-busy]) > *").first().waitFor();
    seen.examples[name][tab] = await page.locator("[role=tabpanel]:not([hidden])").textContent();
  }
}
await page.selectOption("#example", { index: 0 });
await answered("Planned");

// The model: drawn in the round once its tab is opened, and its library asked for no sooner.
const viewer = () => ["three.js", "viewer.js", "model"].map((name) => seen.paths.some((path) => path.endsWith(`/${name}`)));
seen.viewer = [viewer()];
/** Return how many colours the picture has, counted over every fourth pixel, and the pixels as a word to compare. */
async function picture() {
  const png = (await page.locator(".model canvas").screenshot()).toString("base64");
  return page.evaluate(async (text) => {
    const bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const flat = new OffscreenCanvas(image.width, image.height).getContext("2d");
    flat.drawImage(image, 0, 0);
    const { data } = flat.getImageData(0, 0, image.width, image.height);
    const colours = new Map();
    for (let i = 0; i < data.length; i += 16) {
      const colour = `${data[i]},${data[i + 1]},${data[i + 2]}`;
      colours.set(colour, (colours.get(colour) ?? 0) + 1);
    }
    const background = Math.max(...colours.values());
    return { colours: colours.size, covered: 1 - background / (data.length / 16), print: [...colours].join(";") };
  }, png);
}
await page.getByRole("tab", { name: "3D view" }).click();
await page.locator(".model canvas").waitFor();
await page.waitForFunction(() => document.querySelector(".model canvas").width > 300);
seen.viewer.push(viewer());
const views = [await picture()];
for (const act of [
  () => page.getByRole("button", { name: "From the front" }).click(),
  () => page.getByLabel("With doors").uncheck(),
  () => page.getByLabel("Taken apart").check(),
  () => page.locator(".model canvas").press("ArrowLeft"),
  () => page.selectOption("#model-part", "tools/side-left"),
]) {
  await act();
  views.push(await picture());
}
seen.views = views.map(({ colours, covered }) => ({ colours, covered }));
seen.different = new Set(views.map((one) => one.print)).size;
seen.part = await page.locator("#panel-model [role=status]").textContent();
seen.faults = await faults(page, "the model", "#panel-model");
await page.getByRole("tab", { name: "Cabinets" }).click();

await begin(GOOD);
await answered("Planned");
seen.at_first = await marked();

// A key misspelt: its line is marked and named, and mending it clears both.
await rewrite(6, '"depht": 300,');
await answered("cannot be planned");
seen.misspelt = await marked();
seen.signs = await signs();
seen.listed = await page.locator("#problems li").allTextContents();
await rewrite(6, '"depth": 300,');
await answered("Planned");
seen.mended = [await marked(), await signs(), await page.locator("#problems li").count()];

// JSON that is broken is marked before the service is asked.
const asked = seen.requests;
await rewrite(6, '"depth": 300');
await status("Line 6:");
await page.waitForTimeout(1500);
seen.broken = { words: await page.textContent("#status"), marked: await marked(), asked: seen.requests - asked };
await rewrite(6, '"depth": 300,');
await answered("Planned");

// Completion, by keys alone.
await toLine(6);
await page.keyboard.press("End");
await page.keyboard.press("Enter");
await page.keyboard.type('"form');
const list = page.locator("#job .cm-tooltip-autocomplete li");
await list.first().waitFor();
seen.offered = await list.allTextContents();
await page.waitForTimeout(150); // the editor takes Enter for an answer only when the list has stood for a moment
await page.keyboard.press("Enter");
await list.filter({ hasText: "base" }).waitFor();
seen.values = await list.allTextContents();
await page.waitForTimeout(150);
await page.keyboard.press("ArrowDown");
await page.keyboard.press("Enter");
await page.keyboard.type(",");
await page.waitForFunction(() => !document.getElementById("job").shadowRoot.querySelector(".cm-tooltip-autocomplete"));
seen.completed = (await lines())[6].trim();
await answered("Planned");

// A plan with stops: they stand over the tabs with their cures, and a cure taken changes the job.
await begin(readFileSync(stopping, "utf8"));
await page.getByRole("button", { name: "Plan this job" }).click();
await status("not to cut");
seen.stops = await page.textContent("#stop-heading");
await page.getByRole("tab", { name: "Checks" }).click();
await page.locator(".stop-box .cures button").first().waitFor();
seen.cures_in_tab = await page.locator("#panel-checks .cures button").count();
seen.cure = await page.locator(".stop-box .cures li").first().textContent();
await page.locator(".stop-box .cures button").first().click();
await status("Planned: no check says stop");
seen.cured = (await lines()).join("\n");
seen.box = await page.locator(".stop-box").count();

// What a check is about is shown in the job.
await page.locator("#panel-checks .where button").first().click();
seen.shown = await page.evaluate(() => document.activeElement.id);

// Steps ticked are written into the job, and the plan knows them done.
await page.getByRole("tab", { name: "Steps" }).click();
await page.locator("#step-1").check();
await page.locator("#step-2").check();
await page.getByRole("button", { name: "Write the ticks" }).click();
await page.locator("#job .cm-line", { hasText: '"done"' }).waitFor();
await answered("Planned");
seen.done = (await lines()).join("\n").match(/"done": \[[^\]]*\]/)?.[0].replace(/\s+/g, " ");
seen.ticked = await page.locator("#panel-steps input:checked").count();

// What is saved is what the service answers.
await page.getByRole("tab", { name: "Cut list" }).click();
const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Cut list (CSV)" }).click()]);
seen.saved = [download.suggestedFilename(), readFileSync(await download.path(), "utf8").split("\n")[0]];

// Two cabinets that stop alike; a cure of several changes is made by one press, and undone and done again by one.
await begin(readFileSync(two, "utf8"));
await page.getByRole("button", { name: "Plan this job" }).click();
await status("not to cut");
await page.locator(".stop-box .cures button").first().waitFor();
seen.own = await page.evaluate(() => ["example", "open-job"].map((id) => document.getElementById(id).value.split("\\").at(-1)));
seen.whose = await page.$$eval(".stop-box .cures button", (all) => all.map((one) => one.getAttribute("aria-label")));
seen.rows_left = await page.locator(".stop-box .cures li li").allTextContents();
const job = async () => {
  const [saved] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save the job" }).click()]);
  return readFileSync(await saved.path(), "utf8");
};
seen.several = [await job()];
await page.getByRole("button", { name: /in each stud; and hung 12 mm lower/ }).click();
await status("Planned");
seen.several.push(await job());
for (const key of ["Control+z", "Control+y"]) {
  await toLine(1);
  await page.keyboard.press(key);
  seen.several.push(await job());
}

// An example is begun from again after a job of one's own.
await page.selectOption("#example", { index: 0 });
await answered("Planned");
seen.again = await page.evaluate(() => [document.getElementById("example").selectedIndex ? "" : "First", document.getElementById("open-job").value, !document.getElementById("job").shadowRoot.textContent.includes("tubes\"")]);

await browser.close();
console.log(JSON.stringify(seen, null, 1));
