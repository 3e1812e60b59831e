// What every browser test needs: the build on a server, a phone-sized page, and a few watchers.
//
//   start(folder, how)       → app: serves dist/ (or the build that BUILD names), or a copy of it, on a free
//                            port; opens Chromium. how: { under, plain, brotli, fault } as serve.mjs has them
//     app.url                  the server's address, without a slash at its end
//     app.stopServer()         takes the network away, as far as the app can tell
//     app.newPhone(options)    → { context, page, seen }: a fresh 360 × 740 phone with touch and no
//                              stored data; options go to the browser context (colorScheme, …)
//     app.close()              ends everything; call it in after()
//   open(app, page, path)    goes to a path of the app and waits until its screen is made
//   worked(page)             waits until all that is made in turns stands
//   workerReady(page)        waits until the offline worker is active and controls the page
//   shot(page, name)         saves tests/browser/shots/NAME.png of the whole page
//   violations(page)         → accessibility problems, one line each; [] is what you want
//   quantile(all, share)     → the value below which that share of all lies
//   seen.errors              console errors and uncaught exceptions of that phone, as text
//   seen.failed              requests that failed or were answered with an error status, as text
//   seen.requests            the address of every request, whoever made it
import { accessSync, constants, existsSync } from "node:fs";
import { mkdir, readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { serve } from "./serve.mjs";

const HERE = fileURLToPath(new URL(".", import.meta.url));
// BUILD names another build, for looking at two of them.
export const DIST = process.env.BUILD ?? join(HERE, "../../dist");
const SHOTS = join(HERE, "shots");

export const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

// Debian's own browser; none is ever downloaded.
export function findChromium() {
  for (const folder of process.env.PATH.split(delimiter)) {
    try {
      accessSync(join(folder, "chromium"), constants.X_OK);
      return join(folder, "chromium");
    } catch {
      // Not in this folder.
    }
  }
  throw new Error("There is no chromium on PATH. `make tools` installs it.");
}

// A cold deep link asks for the page's own files beside itself, before climb.js finds the app's folder: that
// some of them are not there is how it is meant (README, "Host it").
function sought(url) {
  const { pathname } = new URL(url);
  const [file] = pathname.match(/(?:(?:app-[0-9a-f]+|icons)\/)?[^/]+$/) ?? [];
  return file !== undefined && pathname !== `/${file}` && existsSync(join(DIST, file));
}

export function watch(context) {
  const seen = { errors: [], failed: [], requests: [] };
  context.on("console", (message) => {
    if (message.type() !== "error") return;
    // While the worker just takes over, such a request ends without an answer instead of with a 404.
    if (/status of 404|net::ERR_FAILED/.test(message.text()) && sought(message.location().url)) return;
    seen.errors.push(`${message.text()} ${message.location().url}`.trim());
  });
  context.on("weberror", (event) => seen.errors.push(String(event.error())));
  context.on("request", (request) => seen.requests.push(request.url()));
  context.on("requestfailed", (request) => {
    seen.failed.push(`${request.url()}: ${request.failure()?.errorText}`);
  });
  context.on("response", (response) => {
    if (response.status() >= 400 && !(response.status() === 404 && sought(response.url()))) seen.failed.push(`${response.url()}: ${response.status()}`);
  });
  return seen;
}

export const PHONE = {
  viewport: { width: 360, height: 740 },
  deviceScaleFactor: 2,
  hasTouch: true,
  isMobile: true,
  locale: "en-GB",
};

async function newPhone(browser, url, options) {
  const context = await browser.newContext({ baseURL: url, ...PHONE, ...options });
  const seen = watch(context);
  return { context, page: await context.newPage(), seen };
}

export async function start(folder = process.env.BUILD ?? DIST, how = {}) {
  const server = await serve(folder, 0, how);
  const browser = await chromium.launch({ executablePath: findChromium(), args: FLAGS });
  return {
    url: server.url,
    stopServer: server.stop,
    newPhone: (options = {}) => newPhone(browser, server.url, options),
    async close() {
      await browser.close();
      await server.stop();
    },
  };
}

export async function open(app, page, path = "/") {
  const response = await page.goto(app.url + path);
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  await worked(page);
  return response;
}

// Until all turns of a screen that is made in turns have come.
export const worked = (page) => page.waitForFunction(() => !document.querySelector(".working, .coming"));

export async function workerReady(page) {
  await page.waitForFunction(async () => {
    const { active } = await navigator.serviceWorker.ready;
    return active.state === "activated" && navigator.serviceWorker.controller !== null;
  });
}

export async function shot(page, name) {
  await mkdir(SHOTS, { recursive: true });
  await page.screenshot({ path: join(SHOTS, `${name}.png`), fullPage: true });
}

export async function violations(page) {
  const source = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
  // Evaluated rather than added as an element, so that the page itself stays as it is.
  await page.evaluate(await readFile(source, "utf8"));
  const found = await page.evaluate(() => globalThis.axe.run());
  return found.violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help} — ${node.target.join(" ")}`));
}

export function quantile(all, share) {
  const sorted = [...all].sort((a, b) => a - b);
  return sorted[Math.floor(share * (sorted.length - 1))];
}
