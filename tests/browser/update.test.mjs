// A new version of the app: it is fetched, but nothing changes until the person chooses it.
import assert from "node:assert/strict";
import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { done, leave, longer, newExample, section, toChair, toPlan } from "./flow.mjs";
import { DIST, open, start, violations, workerReady } from "./harness.mjs";

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
  const { context, page, seen } = await app.newPhone();
  await newExample(app, page);
  await workerReady(page);
  const before = await words(page);
  await toPlan(page);
  await toChair(page);
  await done(page);
  await longer(page);
  const stood = await section(page);
  const address = page.url();

  await release("new", "Newer");
  assert.equal(await lookForUpdate(page), "installed");
  await page.reload();
  assert.deepEqual(await section(page), stood);
  assert.equal(await words(page), before, "the old version goes on");
  const offered = page.getByText("A new version is ready.");
  assert.equal(await offered.count(), 0, "nothing is said of it at the chair");

  await leave(page);
  await offered.waitFor();
  assert.deepEqual(await violations(page), []);
  const loaded = page.waitForEvent("load");
  await page.getByRole("button", { name: "Switch now" }).click();
  await loaded;
  await page.getByRole("heading", { name: "At the chair now" }).waitFor();
  await workerReady(page);
  assert.equal(await words(page), "Newer");
  assert.equal(await offered.isVisible(), false);
  const versions = (await page.evaluate(() => caches.keys())).filter((name) => name.startsWith("tautline / "));
  assert.equal(versions.length, 2, "the one before stays, should this one ever not start");
  assert.ok(versions.includes("tautline / new"));
  await page.goto(address);
  assert.deepEqual(await section(page), stood);
  assert.deepEqual(seen.errors, []);
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
