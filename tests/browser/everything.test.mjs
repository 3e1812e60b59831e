// Everything out and back: plain and sealed, sign for sign, and a table of the visits.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { newExample, toPlan } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

// Every document by its key without the revision, as it is kept.
const documents = (page) => page.evaluate(() => Object.fromEntries(
  Object.entries(localStorage)
    .filter(([key]) => /^tautline\.(cut|record)\./.test(key))
    .map(([key, text]) => [key.replace(/\.\d+$/, ""), text])));

async function two(options) {
  const phone = await app.newPhone({ acceptDownloads: true, ...options });
  await newExample(app, phone.page);
  await newExample(app, phone.page);
  await toPlan(phone.page);
  await open(app, phone.page, "/keep");
  return { ...phone, kept: await documents(phone.page) };
}

async function saved(page, button) {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: button }).click();
  const file = await download;
  return { name: file.suggestedFilename(), path: await file.path() };
}

async function wipe(page) {
  await page.evaluate(async () => {
    localStorage.clear();
    await new Promise((done) => {
      const asked = indexedDB.deleteDatabase("tautline");
      asked.onsuccess = done;
      asked.onblocked = done;
    });
  });
}

const choose = (page, file) => page.getByLabel("The file").setInputFiles(file);

test("saved, wiped and taken in again, every document is what it was", async () => {
  const { context, page, seen, kept } = await two();
  await shot(page, "keep");
  assert.deepEqual(await violations(page), []);
  const { name, path } = await saved(page, "Save everything as a file");
  assert.match(name, /^tautline-\d{4}-\d\d-\d\d\.json$/);
  const file = JSON.parse(await readFile(path, "utf8"));
  assert.deepEqual([file.kind, file.schema, file.cuts.length], ["tautline", 1, 2]);
  await page.goto("about:blank");
  const fresh = await app.newPhone();
  await open(app, fresh.page, "/keep");
  await wipe(fresh.page);
  await fresh.page.reload();
  await choose(fresh.page, path);
  await fresh.page.getByRole("rowheader", { name: "New" }).waitFor();
  await shot(fresh.page, "keep_in");
  assert.deepEqual(await violations(fresh.page), []);
  assert.deepEqual(await documents(fresh.page), {}, "nothing before it is said");
  await fresh.page.getByRole("button", { name: "Add it to what is here" }).click();
  await fresh.page.getByText("It is taken in").waitFor();
  assert.deepEqual(await documents(fresh.page), kept);
  await fresh.page.reload();
  await fresh.page.getByRole("heading", { level: 1 }).waitFor();
  assert.deepEqual(await documents(fresh.page), kept);
  assert.deepEqual([...seen.errors, ...fresh.seen.errors], []);
  await fresh.context.close();
  await context.close();
});

test("replaced, what was here is gone, also after the next start", async () => {
  const from = await two();
  const { path } = await saved(from.page, "Save everything as a file");
  const { context, page, seen } = await app.newPhone({ acceptDownloads: true });
  await newExample(app, page);
  await open(app, page, "/keep");
  await choose(page, path);
  await page.getByRole("rowheader", { name: "Here only" }).waitFor();
  await page.getByRole("button", { name: "Replace everything here" }).click();
  await page.getByText("Everything that is here now goes: 1 cut and 0 cards").waitFor();
  await saved(page, "Save what is here first");
  await page.getByRole("button", { name: "Replace everything now" }).click();
  await page.getByText("What was here before is gone").waitFor();
  assert.deepEqual(await documents(page), from.kept);
  await page.waitForTimeout(300);
  await page.reload();
  await page.getByRole("heading", { level: 1 }).waitFor();
  await page.waitForTimeout(400);
  assert.deepEqual(await documents(page), from.kept);
  assert.deepEqual(seen.errors, []);
  await context.close();
  await from.context.close();
});

test("sealed with a passphrase it opens with that one only", async () => {
  const { context, page, seen, kept } = await two();
  await page.getByText("Sealed with a passphrase").click();
  await page.getByLabel("A passphrase of 12 signs or more").fill("four words not alike");
  await page.getByLabel("The same once more").fill("four words not alikf");
  await page.getByRole("button", { name: "Save it sealed" }).click();
  await page.getByText("The two passphrases differ").waitFor();
  await page.getByLabel("The same once more").fill("four words not alike");
  const { name, path } = await saved(page, "Save it sealed");
  assert.match(name, /^tautline-sealed-/);
  const text = await readFile(path, "utf8");
  assert.ok(!text.includes("cuts") && !text.includes("soft-layers"));
  const fresh = await app.newPhone();
  await open(app, fresh.page, "/keep");
  await choose(fresh.page, path);
  await fresh.page.getByLabel("Its passphrase").fill("four words not alikf");
  await fresh.page.getByRole("button", { name: "Open it" }).click();
  await fresh.page.getByText("This passphrase does not open it").waitFor();
  await fresh.page.getByLabel("Its passphrase").fill("four words not alike");
  await fresh.page.getByRole("button", { name: "Open it" }).click();
  await fresh.page.getByRole("button", { name: "Add it to what is here" }).click();
  await fresh.page.getByText("It is taken in").waitFor();
  assert.deepEqual(await documents(fresh.page), kept);
  assert.deepEqual([...seen.errors, ...fresh.seen.errors], []);
  await fresh.context.close();
  await context.close();
});

test("the visits are saved as a table", async () => {
  const { context, page, seen } = await two();
  await page.getByText("Visits as a table").click();
  const { name, path } = await saved(page, "Save the table (CSV)");
  assert.match(name, /^tautline-visits-.*\.csv$/);
  const lines = (await readFile(path, "utf8")).split("\r\n");
  assert.match(lines[0], /^day,whose,title,plan,/);
  assert.equal(lines.length, 4);
  assert.deepEqual(seen.errors, []);
  await context.close();
});
