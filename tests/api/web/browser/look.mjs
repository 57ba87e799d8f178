// Use /docs in headless Chromium as a reader would, at two widths, light and dark; print what was found as JSON.
// Arguments: address of the page, folder for screenshots or nothing, Chromium's path, and the looks wanted (360-light …);
// a look that ends with -brief goes without axe. The variable CASEWRIGHT_KEY holds the service's key, if it asks for one.
import { join } from "node:path";
import { faults as faultsOf, launch, open, overflow as overflowOf } from "./browser.mjs";

const [page_address, out, executablePath, ...only] = process.argv.slice(2);
const browser = await launch(executablePath, "--disable-gpu", "--disable-3d-apis");
const found = [];
for (const width of [360, 1280]) {
  for (const colorScheme of ["light", "dark"]) {
    const name = `${width}-${colorScheme}`;
    const brief = only.includes(`${name}-brief`);
    if (!brief && !only.includes(name)) continue;
    const seen = { width, colorScheme, faults: [] };
    const { context, page } = await open(browser, page_address, { viewport: { width, height: 844 }, colorScheme, reducedMotion: "reduce" }, seen);
    const overflow = () => overflowOf(page);
    const picture = (of, fullPage) => out && page.screenshot({ path: join(out, `${of}-${name}.png`), fullPage });
    const faults = async (where, part) => {
      if (!brief) seen.faults.push(...(await faultsOf(page, where, part)));
    };
    await page.waitForSelector("#path-list details");
    if (process.env.CASEWRIGHT_KEY) {
      await page.getByLabel("Key of this service").fill(process.env.CASEWRIGHT_KEY);
      await page.keyboard.press("Enter");
      seen.console = seen.console.filter((text) => !text.includes("401 (UNAUTHORIZED)")); // the browser's own remark on what was asked before
    }
    await page.locator("#job .cm-line").nth(9).waitFor(); // the editor, with an example in it
    seen.version = await page.textContent("#version");
    seen.background = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    seen.overflow_before = await overflow();
    await picture("docs-top");

    // By keyboard alone: past the skip link and the links, to the form's button.
    const stops = [];
    for (let i = 0; i < 20; i += 1) {
      await page.keyboard.press("Tab");
      const name = await page.evaluate(() => document.activeElement.id || document.activeElement.textContent.trim());
      stops.push(name);
      if (name === "Plan this job") break;
    }
    seen.stops = stops;
    await page.keyboard.press("Enter");
    await page.waitForSelector("[role=tab]");
    await page.waitForFunction(() => document.activeElement.id === "result");
    seen.status = await page.textContent("#status");

    // Every tab, gone to by its keys.
    seen.tabs = {};
    for (let i = 0; i < 30; i += 1) {
      await page.keyboard.press("Tab");
      if (await page.evaluate(() => document.activeElement.getAttribute("role") === "tab")) break;
    }
    for (const tab of await page.$$eval("[role=tab]", (tabs) => tabs.map((tab) => tab.textContent))) {
      await page.keyboard.press("Enter");
      const panel = page.locator("[role=tabpanel]:not([hidden])");
      await page.locator("[role=tabpanel]:not([hidden]):not([aria-busy]) > *").first().waitFor();
      await page.waitForFunction(() => [...document.querySelectorAll("[role=tabpanel]:not([hidden]) img")].every((image) => image.complete));
      seen.tabs[tab] = {
        focus: await page.evaluate(() => document.activeElement.textContent),
        text: await panel.textContent(),
        pictures: await panel.locator("img").evaluateAll((images) => images.map((image) => [image.naturalWidth > 0, image.alt])),
        overflow: await overflow(),
      };
      await picture(`docs-${tab.toLowerCase().replaceAll(" ", "-")}`, true);
      await faults(`the tab ${tab}`, "[role=tabpanel]:not([hidden])");
      await page.keyboard.press("ArrowRight");
    }
    seen.wrapped = await page.evaluate(() => document.activeElement.textContent); // from the last tab on to the first
    seen.rows = await page.$$eval("[aria-label^='Cut list: '] tbody tr", (rows) => rows.map((row) => [...row.cells].map((cell) => cell.firstChild.textContent)));

    // A job that cannot be read: what is wrong stands under the form.
    await page.setInputFiles("#open-job", { name: "job.json", mimeType: "application/json", buffer: Buffer.from('{"unitz": "mm"}') });
    await page.getByRole("button", { name: "Plan this job" }).click();
    await page.waitForSelector("#problems li.stop");
    seen.problem = await page.textContent("#problems");
    seen.console = seen.console.filter((text) => !text.includes("400 (BAD REQUEST)")); // the browser's own remark on it

    await page.click("#path-value summary");
    await page.click("#path-parts summary");
    await page.click("#path-parts dd a, #path-parts dt a");
    await page.waitForSelector("details[id^='shape-'][open] dl");
    seen.shape = await page.evaluate(() => location.hash);
    seen.overflow_reference = await overflow();
    await picture("docs-reference");
    await faults("with a plan's problem and the reference open");

    // The pages for people: code and tables scroll inside themselves, at any width.
    seen.pages = {};
    for (const one of await page.$$eval("#pages li a", (links) => links.map((link) => link.getAttribute("href")))) {
      await page.goto(new URL(one, page_address).href);
      seen.pages[one] = { title: await page.textContent("h1"), overflow: await overflow() };
      await picture(one.replace("/", "-"));
      await faults(one);
    }
    found.push(seen);
    await context.close();
  }
}
await browser.close();
console.log(JSON.stringify(found, null, 1));
