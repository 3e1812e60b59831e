// The app can't start, on a phone that has only this version: the page outside it says so, and hands over
// everything. No worker and no other version is there to help.
import { readdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { start, violations } from "../../harness.mjs";
import { filled, hosted, release } from "../../hosted.mjs";
import { DAMAGED, STUCK, named } from "../offline/broken.mjs";
import { documents, rescued, takenIn } from "./rescued.mjs";

const gone = (pattern) => async (host) => {
  for (const name of await readdir(host.folder, { recursive: true })) {
    if (pattern.test(name)) await rm(join(host.folder, name));
  }
};
const built = (changes) => (host) => release(host.folder, "broken", named(changes));

const FAULTS = {
  ...Object.fromEntries(Object.entries({ ...DAMAGED, ...STUCK }).map(([name, changes]) =>
    [name, { build: built(changes), slow: name === "never comes" }])),
  "wasm missing": { build: gone(/\.wasm$/) },
  "script missing": { build: gone(/(?:^|\/)tautline[-.][^/]*js$/) },
  "boot.js missing": { build: gone(/^boot-[^/]*\.js$/) },
  "the host answers nothing more": {
    // From here on each file hangs; the page itself came.
    build: (host) => { host.fault = (request, response, go) => (/\.wasm/.test(request.url) ? undefined : go()); },
    slow: true,
  },
  "no WebAssembly": { page: () => { delete globalThis.WebAssembly; } },
  "WebAssembly forbidden": {
    page: () => {
      const no = () => Promise.reject(new WebAssembly.CompileError("Wasm code generation disallowed by embedder"));
      WebAssembly.instantiateStreaming = WebAssembly.instantiate = WebAssembly.compileStreaming = no;
    },
  },
};

async function cannotStart(full) {
  const app = await start();
  const all = Object.entries(FAULTS).filter(([name]) => full || ["wasm cut short", "no WebAssembly"].includes(name));
  let taken = 0;
  try {
    for (const [name, { build, page: inPage, slow }] of all) {
      const host = await hosted();
      const { context, page } = await app.newPhone({ baseURL: host.url, serviceWorkers: "block", acceptDownloads: true });
      try {
        await filled(host, page);
        const wanted = await documents(page);
        await build?.(host);
        if (inPage) await page.addInitScript(inPage);
        // Else what the browser still has of the sound build would do.
        await (await context.newCDPSession(page)).send("Network.clearBrowserCache");
        await page.goto(host.url, { waitUntil: slow ? "commit" : "load" });
        await page.getByText("Tautline could not start. Nothing you saved is lost.").waitFor({ timeout: slow ? 45_000 : 20_000 });
        const path = await rescued(page);
        taken += await takenIn(app, path, wanted);
        if (!slow) {
          const wrong = await violations(page);
          if (wrong.length) throw new Error(wrong.join("; "));
        }
      } catch (error) {
        throw new Error(`${name}: ${error.message}`);
      } finally {
        await context.close();
        await host.close();
      }
    }
    return { tries: all.length, figure: `${all.length} of ${all.length} said so; ${taken} documents saved and taken in again, sign for sign`, well: true };
  } finally {
    await app.close();
  }
}

// What is kept can't be read either: then that is said, and nothing throws.
async function noStorage() {
  const app = await start();
  try {
    const { page } = await app.newPhone({ serviceWorkers: "block" });
    await page.addInitScript(() => {
      delete globalThis.WebAssembly;
      Object.defineProperty(globalThis, "localStorage", { get() { throw new DOMException("denied", "SecurityError"); } });
    });
    const thrown = [];
    page.on("pageerror", (error) => thrown.push(error.message));
    await page.goto(app.url);
    await page.getByText("This browser has no WebAssembly").waitFor();
    thrown.length = 0;
    await page.getByRole("button", { name: "Save all data as a file" }).click();
    await page.getByText("This browser does not let the page read what it keeps.").waitFor();
    return { tries: 1, figure: thrown.length ? thrown.join() : "said in a sentence", well: thrown.length === 0 };
  } finally {
    await app.close();
  }
}

export const starts = [
  {
    name: "the app can't start, and there is no version before",
    budget: "says so, all data as a file, which goes in again",
    quick: true,
    run: cannotStart,
  },
  { name: "it can't start, and storage can't be read", budget: "says so", quick: true, run: noStorage },
];
