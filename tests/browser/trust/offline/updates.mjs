// A new version that arrives half, wrong or not at all: the version in use goes on, whole.
import { start, workerReady } from "../../harness.mjs";
import { hosted, release, update } from "../../hosted.mjs";

// What becomes of one file on its way. Each answers with a body that is not the file's.
const body = (response, type, bytes, length = bytes.length) => {
  response.writeHead(200, { "content-type": type, "content-length": length });
  response.write(bytes);
};
const TYPES = { css: "text/css", js: "text/javascript", wasm: "application/wasm", png: "image/png", webmanifest: "application/manifest+json" };
const FAULTS = {
  "cut mid-file": (response, type) => {
    body(response, type, "half of it", 5_000);
    setTimeout(() => response.destroy(), 30);
  },
  "a length that is too long": (response, type) => {
    body(response, type, "all of it", 900);
    setTimeout(() => response.socket?.end(), 30);
  },
  "shorter than it was, and says so": (response, type) => { body(response, type, "/* short */"); response.end(); },
  "a page of the network's own": (response) => {
    body(response, "text/html", "<!DOCTYPE html><title>Log in</title><p>Welcome to this café.");
    response.end();
  },
  "missing": (response) => response.writeHead(404).end(),
  "a fault of the host": (response) => response.writeHead(503).end(),
  "never answered": (response) => setTimeout(() => response.destroy(), 1_500),
};

// One of each kind of file, the page among them.
const TARGETS = [/\/$/, /style-[0-9a-f]+\.css$/, /\.wasm$/, /update-[0-9a-f]+\.js$/, /icon-192\.png$/, /manifest\.webmanifest$/];

async function halfUpdates(full) {
  const host = await hosted();
  const app = await start();
  try {
    const { page } = await app.newPhone({ baseURL: host.url });
    await page.goto(host.url);
    await workerReady(page);
    const kept = await page.evaluate(() => caches.keys());
    const words = () => page.evaluate(() => document.documentElement.dataset.version);
    await page.reload();
    const version = await words();
    const faults = Object.entries(FAULTS).filter((_, i) => full || i % 3 === 0);
    let tries = 0;
    for (const [i, [name, fault]] of faults.entries()) {
      const targets = full ? TARGETS : [TARGETS[i % TARGETS.length]];
      for (const target of targets) {
        tries += 1;
        await release(host.folder, `bad${tries}`, { ".css": (bytes) => `${bytes}\n/* ${tries} */`, ".wasm": (bytes) => Buffer.from(bytes), ".js": (bytes) => `${bytes}\n// ${tries}` });
        let met = false;
        // It stays: loading the page again looks for the update once more.
        host.fault = (request, response, go) => {
          const { pathname } = new URL(request.url, host.url);
          if (!target.test(pathname)) return go();
          met = true;
          fault(response, TYPES[pathname.split(".").at(-1)] ?? "text/html");
        };
        // What the page itself looked for when it was loaded may still be under way, and fail by the fault before.
        let became;
        for (let i = 0; i < 4 && !met; i += 1) became = await update(page);
        const where = `${name} (${target.source})`;
        if (!met) throw new Error(`${where}: it was never asked for`);
        if (became !== "redundant") throw new Error(`${where}: the new version is ${became}`);
        await page.reload();
        await page.getByRole("heading", { level: 1 }).first().waitFor();
        if (await words() !== version) throw new Error(`${where}: the page is ${await words()}`);
        await page.waitForFunction(async (kept) => String((await caches.keys()).sort()) === kept, String(kept.sort()), { timeout: 8_000 })
          .catch(async () => { throw new Error(`${where}: left behind are ${await page.evaluate(() => caches.keys())}`); });
      }
    }
    host.fault = undefined;
    // With a sound network the same version is taken.
    const became = await update(page);
    return { tries, figure: `${tries} of ${tries}; sound again, the update is ${became}`, well: became === "installed" };
  } finally {
    await app.close();
    await host.close();
  }
}

// Two windows: one takes the new version, the other must not go on as the old one unseen.
async function twoWindows() {
  const host = await hosted();
  const app = await start();
  try {
    const { context, page } = await app.newPhone({ baseURL: host.url });
    await page.goto(host.url);
    await workerReady(page);
    const other = await context.newPage();
    await other.goto(`${host.url}/settings`);
    await other.getByRole("heading", { level: 1 }).first().waitFor();
    await release(host.folder, "two");
    if (await update(page) !== "installed") throw new Error("The update did not install.");
    await page.getByRole("button", { name: "Switch now" }).click();
    await page.waitForFunction(() => document.documentElement.dataset.version === "two");
    // In a test no window is ever hidden: so it is told.
    await other.getByText("The new version was taken in another window.").waitFor();
    await other.getByRole("button", { name: "Load it again" }).click();
    await other.waitForFunction(() => document.documentElement.dataset.version === "two");
    await other.getByRole("heading", { level: 1, name: "Settings" }).waitFor();
    return { tries: 1, figure: "told, and of the new version after one press", well: true };
  } finally {
    await app.close();
    await host.close();
  }
}

export const updates = [
  {
    name: "an update that arrives half, wrong or not at all",
    budget: "refused; the version in use goes on, nothing is left behind",
    quick: true,
    run: halfUpdates,
  },
  { name: "a new version is taken in another window", budget: "never two versions unseen", quick: true, run: twoWindows },
];
