// Two windows of the app at once: neither writes over what the other kept, and both show the same.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { back, cameOut, done, leave, longer, newExample, section, toChair, toPlan, unpacked } from "./flow.mjs";
import { open, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app?.close());

// The run at the chair as it is kept.
const kept = async (page, id) => unpacked(await page.evaluate((of) => {
  const index = JSON.parse(localStorage.getItem("tautline.index"));
  return localStorage.getItem(`tautline.cut.${of}.${index.cuts[of]}`);
}, id));
const idOf = (page) => page.url().match(/\/cut\/([^/]+)\//)[1];
const standsAt = (page, place) => page.getByText(`Section ${place} of`).waitFor();

test("two windows on one walk keep everything and show the same", async () => {
  const { context, page: one, seen } = await app.newPhone();
  await newExample(app, one);
  await toPlan(one);
  await toChair(one);
  const id = idOf(one);
  const two = await context.newPage();
  await open(app, two, `/cut/${id}/walk`);
  await standsAt(two, 1);

  // By turns: a value here, on there, a value there, back here.
  await longer(one);
  const first = await cameOut(one);
  await done(two);
  await standsAt(one, 2);
  await longer(two);
  const second = await cameOut(two);
  await done(one);
  await standsAt(two, 3);
  await done(two);
  await standsAt(one, 4);
  await back(one);
  await standsAt(two, 3);
  const walk = (await kept(one, id)).walk;
  const values = walk.done.map((d) => d.came_out_at).filter(Boolean);
  assert.deepEqual(values, [first, second].map(Number.parseFloat));
  assert.equal(walk.done.length, 3);

  // The plan is changed in the second window while the first one walks on, and changed back after.
  await open(app, two, `/cut/${id}/edit`);
  const name = two.getByLabel(/name of (this|the) plan/i).first();
  await name.fill("Another name");
  await name.press("Tab");
  await standsAt(one, 3);
  await done(one);
  const renamed = await kept(two, id);
  assert.equal(renamed.own.name, "Another name");
  assert.equal(renamed.walk.done.length, 3);
  await longer(one);
  const third = await cameOut(one);
  await two.getByRole("button", { name: "Undo" }).click();
  await standsAt(one, 4);
  const now = await kept(two, id);
  assert.equal(now.own, undefined, "the plan is the one of before");
  const put = now.walk.done.map((d) => d.came_out_at).filter(Boolean);
  assert.deepEqual(put, [first, second, third].map(Number.parseFloat));
  assert.equal((await section(one)).place, 4);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a tap on a section that another window has left is not taken for the next one", async () => {
  const { context, page: one } = await app.newPhone();
  await newExample(app, one);
  await toPlan(one);
  await toChair(one);
  const id = idOf(one);
  const two = await context.newPage();
  // This window is told nothing of the other, as one that just wakes.
  await two.addInitScript(() => {
    for (const name of ["storage", "pageshow", "visibilitychange"]) {
      addEventListener(name, (event) => event.stopImmediatePropagation(), true);
    }
  });
  await open(app, two, `/cut/${id}/walk`);
  await standsAt(two, 1);
  await done(one);
  await done(one);
  // A busy machine may take its time to carry a save from one window's process to the other's.
  const twoSees = async () => (await kept(two, id)).walk.done.length;
  while (await twoSees() < 2) await two.waitForTimeout(20);
  assert.equal((await section(two)).place, 1);
  await two.getByRole("button", { name: /^Done/ }).click();
  await standsAt(two, 3);
  assert.equal((await kept(one, id)).walk.done.length, 2);
  await context.close();
});

test("two walks at once leave each other alone, and the list puts both first", async () => {
  const { context, page: one, seen } = await app.newPhone();
  await newExample(app, one);
  await toPlan(one);
  await toChair(one);
  const two = await context.newPage();
  await newExample(app, two);
  await toPlan(two);
  await toChair(two);
  await done(one);
  await longer(two);
  await done(one);
  await done(two);
  await done(one);
  const [a, b] = [await kept(one, idOf(one)), await kept(one, idOf(two))];
  assert.deepEqual([a.walk.done.length, b.walk.done.length], [3, 1]);
  assert.equal(a.walk.done.filter((d) => d.came_out_at).length, 0);
  assert.equal(b.walk.done.filter((d) => d.came_out_at).length, 1);

  const list = await context.newPage();
  await open(app, list, "/?start");
  await list.getByRole("heading", { name: "At the chair now" }).waitFor();
  const rows = await list.locator(".at-chair > li").allInnerTexts();
  assert.equal(rows.length, 2);
  assert.ok(rows.some((row) => row.includes("Section 4 of")), rows.join("; "));
  assert.ok(rows.some((row) => row.includes("Section 2 of")), rows.join("; "));
  assert.deepEqual(await violations(list), []);
  // Started from the home screen with one walk open, it goes on with that one.
  await leave(two);
  const row = two.locator(".at-chair > li").filter({ hasText: "Section 2 of" });
  await row.getByRole("button", { name: /^Delete/ }).click();
  await row.getByRole("button", { name: "Delete for good" }).click();
  await list.getByText("Section 2 of").waitFor({ state: "detached" });
  await open(app, list, "/?start");
  await standsAt(list, 4);
  assert.match(list.url(), /\/walk$/);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a cut deleted in another window is said to be, and comes back only when asked", async () => {
  const { context, page: one, seen } = await app.newPhone();
  await newExample(app, one);
  await toPlan(one);
  await toChair(one);
  const id = idOf(one);
  await done(one);
  const two = await context.newPage();
  await open(app, two);
  await two.getByRole("button", { name: /^Delete/ }).click();
  await two.getByRole("button", { name: "Delete for good" }).click();
  await one.getByText("deleted in another window").waitFor();
  await done(one);
  const index = () => one.evaluate(() => Object.keys(JSON.parse(localStorage.getItem("tautline.index")).cuts));
  assert.deepEqual(await index(), []);
  assert.deepEqual(await violations(one), []);
  await one.getByRole("button", { name: "Keep it again" }).click();
  await one.getByText("deleted in another window").waitFor({ state: "detached" });
  assert.deepEqual(await index(), [id]);
  assert.equal((await kept(one, id)).walk.done.length, 2);
  await two.getByText("Section 3 of").waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("where the browser has no journal the app starts and keeps as before", async () => {
  for (const without of [
    () => Object.defineProperty(window, "indexedDB", { get() { throw new DOMException("no", "SecurityError"); } }),
    // One that never answers.
    () => { IDBFactory.prototype.open = () => ({}); },
    () => { IDBDatabase.prototype.transaction = () => { throw new DOMException("closing", "InvalidStateError"); }; },
  ]) {
    const { context, page, seen } = await app.newPhone();
    await page.addInitScript(without);
    await newExample(app, page);
    await toPlan(page);
    await toChair(page);
    await done(page);
    await page.reload();
    await standsAt(page, 2);
    assert.deepEqual(seen.errors, []);
    await context.close();
  }
});
