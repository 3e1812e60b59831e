// A new version of the app: it is fetched, but nothing changes until the person chooses it.
import assert from "node:assert/strict";
import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { DIST, open, start, workerReady } from "./harness.mjs";

let folder;
let app;
before(async () => {
  folder = await mkdtemp(join(tmpdir(), "tautline-update-"));
  await cp(DIST, folder, { recursive: true });
  app = await start(folder);
});
after(async () => {
  await app?.close();
  await rm(folder, { recursive: true });
});

// Puts another build in the place of the first: a new page, and a worker of another version.
async function release(version, words) {
  const edit = async (name, from, to) => {
    const file = join(folder, name);
    await writeFile(file, (await readFile(file, "utf8")).replace(from, to));
  };
  await edit("index.html", /(name="description" content)="[^"]*"/, `$1="${words}"`);
  await edit("sw.js", /VERSION = ".*"/, `VERSION = "${version}"`);
}

// The page says which build it is in its description; the app itself names the window.
const words = (page) => page.locator('meta[name="description"]').getAttribute("content");

// Asks for a new worker, and waits until it is installed or has failed.
const lookForUpdate = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  await registration.update();
  const worker = registration.installing;
  if (!worker) return registration.waiting?.state;
  await new Promise((done) => {
    worker.onstatechange = () => { if (worker.state !== "installing") done(); };
  });
  return worker.state;
});

test("a new version waits until it is chosen, then replaces the old one whole", async () => {
  const { context, page } = await app.newPhone();
  await open(app, page);
  await workerReady(page);
  const before = await words(page);

  await release("new", "Newer");
  assert.equal(await lookForUpdate(page), "installed");
  await open(app, page, "/cut/none");
  assert.equal(await words(page), before, "the old version goes on");

  await page.evaluate(async () => {
    const { waiting } = await navigator.serviceWorker.ready;
    const switched = new Promise((done) => {
      navigator.serviceWorker.oncontrollerchange = done;
    });
    waiting.postMessage({ type: "switch" });
    await switched;
  });
  await open(app, page);
  await workerReady(page);
  assert.equal(await words(page), "Newer");
  assert.deepEqual(await page.evaluate(() => caches.keys()), ["tautline-new"]);
  await context.close();
});

test("a version with a missing file is refused, and leaves nothing behind", async () => {
  const { context, page } = await app.newPhone();
  await open(app, page);
  await workerReady(page);
  const kept = await page.evaluate(() => caches.keys());

  await release("broken", "Broken");
  await rm(join(folder, "manifest.webmanifest"));
  assert.equal(await lookForUpdate(page), "redundant");
  assert.deepEqual(await page.evaluate(() => caches.keys()), kept);
  await context.close();
});
