// Use /docs in headless Chromium as a reader would, at two widths, light and dark; print what was found as JSON.
// Arguments: address of the page, folder for screenshots, Chromium's path, and perhaps the one look wanted (390-light).
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { chromium } from "playwright-core";

const [page_address, out, executablePath, only] = process.argv.slice(2);
const host = new URL(page_address).host;
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await chromium.launch({
  executablePath,
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync"],
});
const found = [];
for (const width of [390, 1280]) {
  for (const colorScheme of ["light", "dark"]) {
    if (only && only !== `${width}-${colorScheme}`) continue;
    const context = await browser.newContext({ viewport: { width, height: 844 }, colorScheme, bypassCSP: false });
    const page = await context.newPage();
    const seen = { width, colorScheme, console: [], requests: 0, elsewhere: [], faults: [] };
    page.on("console", (message) => ["error", "warning"].includes(message.type()) && seen.console.push(message.text()));
    page.on("pageerror", (error) => seen.console.push(String(error)));
    page.on("request", (request) => {
      const { protocol, host: asked } = new URL(request.url());
      seen.requests += 1;
      if (protocol !== "blob:" && asked !== host) seen.elsewhere.push(request.url());
    });
    const overflow = () => page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    const faults = async (where) => {
      await page.evaluate(axe); // over the debugging protocol, so the page's own policy stays as it is served
      const report = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      for (const one of report.violations) {
        seen.faults.push({ where, id: one.id, impact: one.impact, nodes: one.nodes.slice(0, 3).map((n) => `${n.html.slice(0, 160)} ${n.failureSummary}`) });
      }
    };
    await page.goto(page_address);
    await page.waitForSelector("#path-list details");
    await page.waitForFunction(() => document.getElementById("job").value.length > 0);
    seen.version = await page.textContent("#version");
    seen.background = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    seen.overflow_before = await overflow();
    await page.screenshot({ path: join(out, `docs-${width}-${colorScheme}-top.png`) });

    // By keyboard alone: past the skip link and the links, to the form's button.
    const stops = [];
    for (let i = 0; i < 12; i += 1) {
      await page.keyboard.press("Tab");
      const name = await page.evaluate(() => document.activeElement.id || document.activeElement.textContent.trim());
      stops.push(name);
      if (name === "Plan this job") break;
    }
    seen.stops = stops;
    await page.keyboard.press("Enter");
    await page.waitForSelector("#result figure img", { timeout: 30000 });
    seen.status = await page.textContent("#status");
    seen.focus = await page.evaluate(() => document.activeElement.id);
    seen.rows = await page.$$eval("[aria-label='Cut list'] tbody tr", (rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent)));
    await page.waitForFunction(() => document.querySelector("#result figure img").complete);
    seen.drawing = await page.$eval("#result figure img", (image) => [image.naturalWidth > 0, image.alt]);
    seen.checks = await page.$$eval("#result ul.plain li", (items) => items.length);
    await page.getByRole("button", { name: "Next cabinet" }).click();
    await page.waitForFunction(() => document.querySelector("#result figcaption").textContent.includes("sheet 2"));
    seen.overflow_after = await overflow();
    await page.screenshot({ path: join(out, `docs-${width}-${colorScheme}-plan.png`), fullPage: true });

    await faults("with a plan shown");

    // A job that cannot be read: what is wrong stands under the form.
    await page.fill("#job", '{"unitz": "mm"}');
    await page.getByRole("button", { name: "Plan this job" }).click();
    await page.waitForSelector("#result li.stop");
    seen.problem = await page.textContent("#result");
    seen.console = seen.console.filter((text) => !text.includes("400 (BAD REQUEST)")); // the browser's own remark on it

    await page.click("#path-value summary");
    await page.click("#path-parts summary");
    await page.click("#path-parts dd a, #path-parts dt a");
    await page.waitForSelector("details[id^='shape-'][open] dl");
    seen.shape = await page.evaluate(() => location.hash);
    seen.overflow_reference = await overflow();
    await page.screenshot({ path: join(out, `docs-${width}-${colorScheme}-reference.png`) });
    await faults("with a plan's problem and the reference open");

    // The pages for people: code and tables scroll inside themselves, at any width.
    seen.pages = {};
    for (const name of await page.$$eval("#pages li a", (links) => links.map((link) => link.getAttribute("href")))) {
      await page.goto(new URL(name, page_address).href);
      seen.pages[name] = { title: await page.textContent("h1"), overflow: await overflow() };
      await page.screenshot({ path: join(out, `${name.replace("/", "-")}-${width}-${colorScheme}.png`) });
      await faults(name);
    }
    found.push(seen);
    await context.close();
  }
}
await browser.close();
console.log(JSON.stringify(found, null, 1));
