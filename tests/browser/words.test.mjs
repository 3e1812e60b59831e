// The settings and the library: usage, units and hand change what the screens show; a cut is found,
// read and taken.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { done, face, newExample, offer, section, toChair, toPlan } from "./flow.mjs";
import { open, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const BRITISH = /\b(fringes?|centred?|centre|colour|grey|towards|forwards|metres?|centimetres|licence|travelling)\b/i;
const AMERICAN = /\b(bangs?|center|color|gray|toward|centimeters|license)\b/i;

// All words of the page, also those that are folded away or only said.
const words = (page) => page.evaluate(() => document.querySelector("#app").textContent);

async function settings(page, ...labels) {
  await open(app, page, "/settings");
  for (const label of labels) await page.getByLabel(label).check();
}

async function take(page, id, plan) {
  await page.evaluate(([id, plan]) => {
    const key = Object.keys(localStorage).find((k) => k.startsWith(`tautline.cut.${id}.`));
    const cut = JSON.parse(localStorage.getItem(key));
    cut.plan = plan;
    localStorage.setItem(key, JSON.stringify(cut));
  }, [id, plan]);
}

const idOf = (page) => page.url().split("/cut/")[1].split("/")[0];

test("the usage changes every screen, and a choice wins over the language", async () => {
  for (const [locale, choice, wrong, right] of [
    ["en-GB", null, AMERICAN, "Curtain fringe"],
    ["en-US", null, BRITISH, "Curtain bangs"],
    ["en-US", /^English, UK/, AMERICAN, "Curtain fringe"],
    ["en-GB", /^English, US/, BRITISH, "Curtain bangs"],
  ]) {
    const { context, page, seen } = await app.newPhone({ locale });
    if (choice) await settings(page, choice);
    const look = async (name) => {
      assert.doesNotMatch(await words(page), wrong, `${name}, ${locale}, ${choice}`);
    };
    await newExample(app, page);
    await look("head");
    const id = idOf(page);
    await open(app, page, `/cut/${id}/choose`);
    await offer(page, right).waitFor();
    await look("library");
    for (const plan of ["curtain-fringe", "long-graduation"]) {
      await take(page, id, plan);
      await open(app, page, `/cut/${id}/plan`);
      await page.getByRole("table").waitFor();
      await look(plan);
    }
    const name = await page.getByRole("heading", { level: 1 }).innerText();
    assert.equal(name === "Long graduation", right.endsWith("fringe"), name);
    await take(page, id, "trim");
    await open(app, page, `/cut/${id}/plan`);
    await page.getByRole("table").waitFor();
    await page.getByRole("link", { name: "To the chair" }).click();
    await page.getByRole("button", { name: "Start" }).waitFor();
    await look("before");
    await page.getByRole("button", { name: "Start" }).click();
    let at = await section(page);
    while (at.place < at.count) {
      await look(`section ${at.place}`);
      await done(page);
      at = await section(page);
    }
    await done(page);
    await page.getByRole("table").waitFor();
    await look("end");
    assert.deepEqual(seen.errors, []);
    await context.close();
  }
});

test("settings are kept, and the unit chosen alone leaves the usage to the language", async () => {
  const { context, page } = await app.newPhone({ locale: "en-US" });
  await settings(page, "Inches");
  const stored = await page.evaluate(() => JSON.parse(localStorage.getItem("tautline.settings")));
  assert.equal(stored.unit, "inches");
  assert.ok(!("usage" in stored));
  assert.ok(await page.getByLabel(/^English, US/).isChecked());
  await page.getByText("stacked at low or medium elevation").waitFor();
  await page.getByLabel(/^English, UK/).check();
  await page.getByLabel("Centimetres").waitFor();
  await page.getByText("short graduation has the inside longer").waitFor();
  await page.getByLabel("The left hand").check();
  assert.deepEqual(await violations(page), []);
  await page.reload();
  assert.ok(await page.getByLabel(/^English, UK/).isChecked());
  assert.ok(await page.getByLabel("The left hand").isChecked());
  assert.ok(await page.getByLabel("Inches").isChecked());
  await context.close();
});

test("at the chair scissors come in from the side of the hand that holds them", async () => {
  for (const [hand, way] of [["The right hand", "right"], ["The left hand", "left"]]) {
    const { context, page } = await app.newPhone();
    await settings(page, hand);
    await newExample(app, page);
    await toPlan(page);
    await toChair(page);
    await page.locator("desc").filter({ hasText: `come in from the ${way}` }).waitFor({ state: "attached" });
    const [rings, pivot] = await page.evaluate(() => {
      const x = (c) => [...document.querySelectorAll(c)].map((e) => e.cx.baseVal.value);
      return [x(".d-ring"), x(".d-pivot")];
    });
    assert.equal(rings.length, 2);
    for (const ring of rings) assert.equal(ring > pivot[0], way === "right");
    await face(page, "How");
    await page.getByText("Point: the tips of the blades").waitFor();
    assert.equal(await page.getByRole("link", { name: "Settings" }).count(), 0);
    await context.close();
  }
});

test("from an empty app a built-in cut is fitted in four taps", async () => {
  const { context, page, seen } = await app.newPhone();
  await open(app, page, "/");
  let taps = 0;
  const tap = async (what) => { await what.tap(); taps += 1; };
  await tap(page.getByRole("button", { name: "New cut" }));
  await tap(page.getByRole("link", { name: "Choose a cut" }));
  await tap(offer(page, "Graduated bob"));
  await tap(page.getByRole("button", { name: "Take this cut" }));
  await page.getByRole("heading", { level: 1, name: "Graduated bob" }).waitFor();
  await page.getByRole("table").waitFor();
  assert.equal(taps, 4);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("the library is read cut by cut, with a picture each, and asks before changes go", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const { context, page, seen } = await app.newPhone({ colorScheme, viewport: { width: 320, height: 568 } });
    await newExample(app, page);
    const id = idOf(page);
    await open(app, page, `/cut/${id}/choose`);
    await page.waitForFunction(() => {
      const all = [...document.querySelectorAll(".offer .thumb")];
      return all.length >= 16 && all.every((e) => e.querySelector("svg"));
    });
    assert.deepEqual(await violations(page), []);
    const row = page.locator(".offer").filter({ hasText: "Uniform layers" });
    await row.locator("summary").focus();
    await page.keyboard.press("Enter");
    for (const part of ["Falls", "Suits", "Not for", "Weight", "Mistakes", "Checks", "Take care", "Time", "Steps"]) {
      await row.getByText(part, { exact: true }).waitFor();
    }
    await row.getByRole("definition").filter({ hasText: /^Ends from .* down to .*, dry\.$/ }).waitFor();
    assert.deepEqual(await violations(page), []);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= 320);
    const small = await page.$$eval("summary, button, a[href]", (all) => all
      .map((e) => [e.textContent, e.getBoundingClientRect()])
      .filter(([, box]) => box.height > 0 && (box.height < 48 || box.width < 48)));
    assert.deepEqual(small, []);

    // A plan that was changed for this cut.
    await page.evaluate((id) => {
      const key = Object.keys(localStorage).find((k) => k.startsWith(`tautline.cut.${id}.`));
      const cut = JSON.parse(localStorage.getItem(key));
      cut.own = {
        schema: 1, id: cut.plan, name: "My own (invented)", about: "", suits: "", choices: [], steps: [],
      };
      localStorage.setItem(key, JSON.stringify(cut));
    }, id);
    await page.reload();
    await row.locator("summary").click();
    await row.getByRole("button", { name: "Take this cut" }).click();
    await row.getByText("Your changes to “My own (invented)” would go.").waitFor();
    await row.getByRole("button", { name: "Keep my changes" }).click();
    await row.getByRole("button", { name: "Take this cut" }).click();
    await row.getByRole("button", { name: "Take it all the same" }).click();
    await page.getByRole("heading", { level: 1, name: "Uniform layers" }).waitFor();
    const own = await page.evaluate((id) => {
      const key = Object.keys(localStorage).find((k) => k.startsWith(`tautline.cut.${id}.`));
      return JSON.parse(localStorage.getItem(key)).own;
    }, id);
    assert.equal(own, undefined);
    // Left before its pictures are drawn, the library stops in silence.
    await open(app, page, `/cut/${id}/choose`);
    await page.getByRole("link", { name: "Head" }).click();
    await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
    await page.waitForTimeout(600);
    assert.deepEqual(seen.errors, []);
    await context.close();
  }
});
