// Headless Chromium for the looks at /docs: software drawing, no traffic of its own, every request and fault noted.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export function launch(executablePath, ...more) {
  const args = ["--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", ...more];
  return chromium.launch({ executablePath, args });
}

/** Open a page in a context of its own, and note into `seen` what it logs and what it asks of other hosts. */
export async function open(browser, address, options, seen) {
  const context = await browser.newContext({ bypassCSP: false, ...options });
  const page = await context.newPage();
  page.setDefaultTimeout(120000); // a machine may be busy with other tests
  const { host } = new URL(address);
  Object.assign(seen, { console: [], requests: 0, paths: [], elsewhere: [] });
  page.on("console", (message) => ["error", "warning"].includes(message.type()) && seen.console.push(message.text()));
  page.on("pageerror", (error) => seen.console.push(String(error)));
  page.on("request", (request) => {
    const { protocol, host: asked, pathname } = new URL(request.url());
    seen.requests += 1;
    seen.paths.push(pathname);
    if (protocol !== "blob:" && asked !== host) seen.elsewhere.push(request.url());
  });
  await page.goto(address);
  return { context, page };
}

/** Return what axe-core finds in a part of a page. */
export async function faults(page, where, part = "html") {
  await page.evaluate(axe); // over the debugging protocol, so the page's own policy stays as it is served
  const report = await page.evaluate((of) => window.axe.run(of, { resultTypes: ["violations"] }), part);
  return report.violations.map((one) => ({
    where, id: one.id, impact: one.impact, nodes: one.nodes.slice(0, 3).map((n) => `${n.html.slice(0, 160)} ${n.failureSummary}`),
  }));
}

export function overflow(page) {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}
