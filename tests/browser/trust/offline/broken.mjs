// A new version that installs whole but does not start: the one before comes back, by itself where trying
// again can't help, else offered; nothing saved is lost, and the next version is taken as always.
import { newExample } from "../../flow.mjs";
import { start, workerReady } from "../../harness.mjs";
import { hosted, release, update } from "../../hosted.mjs";

// A module whose one function is `unreachable`: a real trap, as a panic in Rust is one.
export const TRAP = `new WebAssembly.Instance(new WebAssembly.Module(new Uint8Array([0,97,115,109,1,0,0,0,1,4,1,96,0,0,3,2,1,0,7,5,1,1,102,0,0,10,5,1,3,0,0,11]))).exports.f();\n`;

const half = (bytes) => bytes.subarray(0, bytes.length >> 1);
const flipped = (bytes) => {
  const made = Buffer.from(bytes);
  // Spread over all of it: one bit alone may well be a number in some table.
  for (let at = 8; at < made.length; at += 1009) made[at] ^= 0x55;
  return made;
};

// By itself: no part of it can even be read.
export const DAMAGED = {
  "wasm cut short": { ".wasm": half },
  "wasm with flipped bits": { ".wasm": flipped },
  "wasm that is a page": { ".wasm": () => "<!DOCTYPE html><p>Not found" },
  "wasm of nothing": { ".wasm": () => "" },
  "script cut short": { "GLUE": half },
  "script that is a page": { "GLUE": () => "<!DOCTYPE html><p>Not found" },
};

// Offered: it may be what is stored, or only slow.
export const STUCK = {
  "a trap while it starts": { "START": (bytes) => TRAP + bytes },
  "an error while it starts": { "START": (bytes) => `null.start();\n${bytes}` },
  "never comes": { "START": () => "" },
};

// By itself after some tries: not even the scripts that would say so run.
const SILENT = { "no script runs at all": { ".js": () => "" } };

// Which file is the glue, and which starts the app, the build's names say.
export function named(changes) {
  const made = {};
  for (const [end, change] of Object.entries(changes)) {
    const of = (pattern) => (bytes, name) => (pattern.test(name) ? change(bytes) : bytes);
    if (end === "GLUE") made["/"] = of(/(?:^|\/)tautline[-.][^/]*js$/);
    else if (end === "START") made["/"] = of(/(?:^|\/)tautline[-.][^/]*js$/);
    else made[end] = change;
  }
  return made;
}

const stored = (page) => page.evaluate(() => JSON.stringify(Object.entries(localStorage).sort()));
const shown = (page) => page.evaluate(() => document.documentElement.dataset.version);

async function withNewer(changes, then) {
  const host = await hosted();
  const app = await start();
  try {
    const { page } = await app.newPhone({ baseURL: host.url, acceptDownloads: true });
    await newExample(host, page);
    await workerReady(page);
    await page.goto(host.url);
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    // This version says that it started, and a moment later that stands in the worker's notes.
    await page.waitForFunction(async () => {
      const notes = await caches.match(`${location.origin}/`, { cacheName: "tautline-state /" });
      return (await notes?.json())?.started?.length > 0;
    });
    const [version, kept] = [await shown(page), await stored(page)];
    await release(host.folder, "broken", named(changes));
    if (await update(page) !== "installed") throw new Error("The update did not install.");
    await page.getByRole("button", { name: "Switch now" }).click();
    await then(page, version, host);
    if (await shown(page) !== version) throw new Error(`the page is ${await shown(page)}`);
    if (await stored(page) !== kept) throw new Error("what is stored changed");
    // It is not taken again by itself, and a good one is.
    await page.reload();
    await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
    if (await shown(page) !== version) throw new Error("the refused version came again");
    return page;
  } finally {
    await app.close();
    await host.close();
  }
}

const older = (page) => page.getByText("The new version did not start on this device").waitFor({ timeout: 20_000 });

async function each(all, full, then) {
  const kinds = Object.entries(all);
  const tried = full ? kinds : kinds.slice(0, 1);
  for (const [name, changes] of tried) {
    await withNewer(changes, then).catch((error) => { throw new Error(`${name}: ${error.message}`); });
  }
  return { tries: tried.length, figure: `${tried.length} of ${tried.length}: ${tried.map(([name]) => name).join("; ")}`, well: true };
}

async function offered(page) {
  await page.getByText("Tautline could not start. Nothing you saved is lost.").waitFor({ timeout: 20_000 });
  const file = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save all data as a file" }).click();
  await file;
  await page.getByRole("button", { name: "Go back to the version before" }).click();
  await older(page);
}

async function opened(page) {
  for (let i = 0; i < 8; i += 1) {
    await page.waitForTimeout(300);
    // The page may just be on its way itself.
    await page.reload().catch(() => {});
    if (await page.getByRole("heading", { level: 1 }).count()) break;
  }
  await older(page);
}

export const broken = [
  { name: "a new version with a damaged part", budget: "the one before, by itself, and says so", quick: true, run: (full) => each(DAMAGED, full, older) },
  { name: "a new version that stops or hangs while it starts", budget: "says so, saves all data, goes back when asked", run: (full) => each(STUCK, full, offered) },
  { name: "a new version in which no script runs", budget: "the one before, by itself, after five tries", run: (full) => each(SILENT, full, opened) },
];
