// The app on hosts of every kind, in browsers that were closed, and in broken builds.
//
//   hosted(how)               → host: a copy of the build on a server of its own; how as in serve.mjs
//     host.url, host.folder, host.stop()
//     host.fault = (request, response, go) => …   answers from now on; undefined: as usual
//     host.asked               how often each path was asked for, since it was emptied last
//     host.close()             stops it and removes the copy
//   profile()                 → a browser's folder, which outlives the browser
//     .open(url, options)      → { context, page, seen, close }: the browser, started anew
//     .remove()
//   routes()                  → every address of src/ui/mod.rs, like "cut/:id/see/:part?"
//   release(folder, version, changes)  another build in its place. changes: { "ending": (bytes, name) => … } by
//                              the end of a file's name, "/" for all; what is changed gets a new fingerprint
//   filled(host, page)        the invented salon and an example;  addresses(page) → every route with their ids
//   screenAt(page, url)       goes there cold and waits for its heading; throws where it is another screen
//   update(page)              → "installed" or "redundant": what became of the worker that was looked for
import { createHash } from "node:crypto";
import { cp, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { newExample } from "./flow.mjs";
import { DIST, FLAGS, PHONE, findChromium, open, watch } from "./harness.mjs";
import { serve } from "./serve.mjs";

const SOURCE = join(fileURLToPath(new URL(".", import.meta.url)), "../../src");

const temporary = (name) => mkdtemp(join(tmpdir(), `tautline-${name}-`));

export async function hosted(how = {}) {
  const folder = await temporary("host");
  await cp(DIST, folder, { recursive: true });
  const host = { folder, asked: new Map(), fault: undefined };
  const fault = (request, response, go) => {
    const { pathname } = new URL(request.url, "http://localhost");
    host.asked.set(pathname, (host.asked.get(pathname) ?? 0) + 1);
    return host.fault ? host.fault(request, response, go) : go();
  };
  const { url, stop } = await serve(folder, 0, { ...how, fault });
  let stopped = false;
  host.url = url;
  host.stop = async () => { if (!stopped) { stopped = true; await stop(); } };
  host.close = async () => {
    await host.stop();
    await rm(folder, { recursive: true });
  };
  return host;
}

export async function profile() {
  const folder = await temporary("profile");
  return {
    async open(url, options = {}) {
      const context = await chromium.launchPersistentContext(folder, {
        ...PHONE, baseURL: url, executablePath: findChromium(), args: FLAGS, ...options,
      });
      const seen = watch(context);
      return { context, page: context.pages()[0] ?? await context.newPage(), seen, close: () => context.close() };
    },
    remove: () => rm(folder, { recursive: true, force: true, maxRetries: 5 }),
  };
}

export async function routes() {
  const text = await readFile(join(SOURCE, "ui/mod.rs"), "utf8");
  const found = [...text.matchAll(/path!\("\/([^"]*)"\)/g)].map(([, path]) => path);
  if (found.length < 20) throw new Error("The routes are no longer found in src/ui/mod.rs.");
  return found;
}

async function files(folder, below = folder) {
  const entries = await readdir(below, { withFileTypes: true });
  const all = await Promise.all(entries.map((entry) => entry.isDirectory()
    ? files(folder, join(below, entry.name))
    : relative(folder, join(below, entry.name))));
  return all.flat();
}

// Hexadecimal, like any.
const fingerprint = (version) => createHash("sha256").update(version).digest("hex").slice(0, 16);
const FINGERPRINT = /-([0-9a-f]{12,})(?=[./_])/;

export async function release(folder, version, changes = {}) {
  const renamed = new Map();
  for (const name of await files(folder)) {
    const change = Object.entries(changes).find(([end]) => end === "/" || name.endsWith(end))?.[1];
    if (!change || name === "sw.js") continue;
    const file = join(folder, name);
    const before = await readFile(file);
    const changed = await change(before, name);
    if (changed === before) continue;
    if (changed === undefined) await rm(file);
    else await writeFile(file, changed);
    const print = FINGERPRINT.exec(name)?.[1];
    if (print) renamed.set(print, fingerprint(version));
  }
  const all = await files(folder);
  const another = (text) => [...renamed].reduce((made, [from, to]) => made.replaceAll(from, to), text);
  // What names a changed file is changed itself.
  const texts = new Map();
  for (const name of all.filter((name) => /\.(?:html|js|css)$/.test(name))) {
    texts.set(name, await readFile(join(folder, name), "utf8"));
  }
  for (let before = -1; before < renamed.size;) {
    before = renamed.size;
    for (const [name, text] of texts) {
      const print = FINGERPRINT.exec(name)?.[1];
      if (print && another(text) !== text) renamed.set(print, renamed.get(print) ?? fingerprint(version));
    }
  }
  for (const name of all) {
    const file = join(folder, name);
    if (texts.has(name)) {
      let text = another(texts.get(name));
      if (renamed.size) text = text.replaceAll(/ integrity="[^"]*"/g, "");
      if (name === "sw.js") text = text.replace(/const VERSION = ".*"/, `const VERSION = "${version}"`);
      await writeFile(file, text);
    }
    if (another(name) !== name) {
      await cp(file, join(folder, another(name)));
      await rm(file);
    }
  }
  // A build digests what it has, however broken.
  const worker = join(folder, "sw.js");
  let text = await readFile(worker, "utf8");
  for (const [entry, name, digest] of [...text.matchAll(/\[\s*"([^"]+)",\s*"(sha384-[^"]*)"\s*\]/g)]) {
    const bytes = await readFile(join(folder, name));
    const now = `sha384-${createHash("sha384").update(bytes).digest("base64")}`;
    text = text.replace(entry, entry.replace(digest, now));
  }
  await writeFile(worker, text);
}

export const update = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  // A script that can't even be fetched is refused like one that does not install. The page's own look for
  // an update may just have been under way: then the answer to this one comes a moment later.
  for (let i = 0; i < 10 && !registration.installing && !registration.waiting; i += 1) {
    await registration.update().catch(() => {});
    if (!registration.installing) await new Promise((done) => { setTimeout(done, 200); });
  }
  const worker = registration.installing;
  if (!worker) return registration.waiting ? "installed" : "none";
  await new Promise((done) => {
    worker.onstatechange = () => { if (worker.state !== "installing") done(); };
  });
  return worker.state;
});

// A phone with something in it: the invented salon and one example.
export async function filled(host, page) {
  await newExample(host, page);
  await open(host, page, "/book");
  await page.locator("summary", { hasText: "An invented salon" }).click();
  await page.getByRole("button", { name: "Load the invented salon" }).click();
  await page.getByText("Take the invented salon away").waitFor({ state: "attached" });
}

// Every address with the ids of what is in the phone: a finished cut, and a card.
export async function addresses(page) {
  const { cuts, records } = await page.evaluate(() => {
    const ids = (kind) => Object.keys(localStorage)
      .map((key) => new RegExp(`^tautline\\.${kind}\\.(.+)\\.\\d+$`).exec(key)?.[1]).filter(Boolean);
    return { cuts: ids("cut"), records: ids("record") };
  });
  const all = [];
  for (const route of await routes()) {
    const [, name] = /:(\w+)\?$/.exec(route) ?? [];
    for (const path of name ? [route.replace(/\/:\w+\?$/, ""), route.replace(/:\w+\?$/, { part: "lengths", idea: "guide" }[name])] : [route]) {
      all.push(path.replace(":id", path.startsWith("book") ? records[0] : cuts[0]));
    }
  }
  return all;
}

// What stands on a screen that an address opened; throws where it is not the screen that was meant.
export async function screenAt(page, url) {
  await page.goto(url);
  const heading = page.getByRole("heading", { level: 1 }).first();
  await heading.waitFor({ timeout: 15_000 });
  const text = await heading.innerText();
  if (/nothing here|can't be opened/.test(text)) throw new Error(`${url}: ${text}`);
  await page.waitForFunction((wanted) => location.href.split(/[?#]/)[0] === wanted, url, { timeout: 5_000 })
    .catch(() => { throw new Error(`${url} became ${page.url()}`); });
  return text;
}
