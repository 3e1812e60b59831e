// The list with a thousand visits: found by any word, by tag, in another order, thirty at a time, and nothing
// of it while the client looks on.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { newExample } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";
import { CLIENTS, ROOM, VISITS, fill, lay } from "./many.mjs";

let app;
let full;
before(async () => {
  app = await start();
  const { context, page } = await app.newPhone();
  await fill(app, page);
  full = await page.evaluate(() => ({ ...localStorage }));
  await context.close();
});
after(() => app.close());

const LAID = { name: /^Find a cut/ };
const rows = (page) => page.locator(".cuts > li .open");
const count = (page) => page.locator(".found-count").innerText();

async function fullPhone(options) {
  const phone = await app.newPhone(options);
  await open(app, phone.page, "/settings");
  await lay(phone.page, full);
  await open(app, phone.page, "/");
  await rows(phone.page).first().waitFor();
  return phone;
}

test("a thousand visits of two hundred clients fit, and the list is read without their documents", async () => {
  const { context, page, seen } = await fullPhone();
  assert.equal(await count(page), "1,000 cuts");
  assert.equal(await rows(page).count(), 10);
  const [units, lines] = await page.evaluate(() => {
    const all = Object.entries(localStorage).filter(([key]) => key.startsWith("tautline"));
    return [all.reduce((sum, [key, text]) => sum + key.length + text.length, 0), all.filter(([key]) => key.startsWith("tautline.line.")).length];
  });
  assert.ok(units < ROOM / 2, `${units}`);
  assert.equal(lines, VISITS);
  // With documents that nobody could read, of the same length, the list stands: it reads its lines.
  await page.evaluate(() => {
    for (const key of Object.keys(localStorage).filter((key) => key.startsWith("tautline.cut."))) {
      localStorage[key] = "~".repeat(localStorage[key].length);
    }
  });
  await open(app, page, "/");
  assert.equal(await count(page), "1,000 cuts");
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a cut is found by words, tag and order; what was looked for is there when one comes back", async () => {
  const { context, page, seen } = await fullPhone();
  const field = page.getByRole("searchbox", LAID);
  await field.pressSequentially("zoe 2024-0");
  const said = await count(page);
  assert.match(said, /^\d+ of 1,000 cuts$/);
  for (const text of await rows(page).allInnerTexts()) assert.match(text, /Zoë[^]*2024/);
  await page.getByLabel("Tag").selectOption("exam");
  const fewer = await count(page);
  assert.ok(Number.parseInt(fewer, 10) < Number.parseInt(said, 10), `${fewer}, ${said}`);
  for (const text of await page.locator(".cuts > li .tags").allInnerTexts()) assert.match(text, /exam/);
  await page.getByLabel("Sorted by").selectOption({ label: "Plan" });
  assert.equal(await count(page), fewer);
  assert.deepEqual(await violations(page), []);
  await rows(page).first().click();
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  await page.getByRole("link", { name: "Tautline" }).click();
  assert.equal(await count(page), fewer);
  assert.equal(await field.inputValue(), "zoe 2024-0");
  await page.getByRole("button", { name: "Clear" }).click();
  assert.equal(await field.inputValue(), "");
  assert.ok(await field.evaluate((field) => field === document.activeElement));
  await page.getByLabel("Tag").selectOption("All tags");
  assert.equal(await count(page), "1,000 cuts");
  await field.fill("nothing has this");
  assert.match(await count(page), /^No cut has all of this/);
  assert.equal(await rows(page).count(), 0);
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("more rows come by a button, and the keyboard goes on at the first of them", async () => {
  const { context, page } = await fullPhone();
  await page.getByRole("button", { name: "Show 30 more" }).focus();
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.querySelectorAll(".cuts > li").length === 40);
  await page.waitForFunction(() => {
    const all = [...document.querySelectorAll(".cuts > li .open")];
    return all.indexOf(document.activeElement) === 10;
  });
  await page.getByRole("searchbox", LAID).fill("january 2025");
  assert.ok(await rows(page).count() <= 10);
  await context.close();
});

test("by name the list runs by the alphabet, and a deleted cut is gone from it", async () => {
  const { context, page } = await fullPhone();
  await page.getByLabel("Sorted by").selectOption({ label: "Name" });
  const names = await page.locator(".cuts .whose").allInnerTexts();
  assert.equal(names.length, 10);
  assert.deepEqual(names, [...names].sort((a, b) => a.localeCompare(b, "en")));
  const gone = await rows(page).first().getAttribute("href");
  await page.getByRole("button", { name: /^Delete/ }).first().click();
  await page.waitForFunction(() => document.activeElement.innerText === "Keep");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.innerText.startsWith("Delete"));
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Delete for good" }).click();
  await page.waitForFunction(() => document.querySelector(".found-count").innerText === "999 cuts");
  assert.equal(await page.locator(`a[href="${gone}"]`).count(), 0);
  const id = gone.split("/")[2];
  assert.deepEqual(await page.evaluate((id) => Object.keys(localStorage).filter((key) => key.includes(id)), id), []);
  await context.close();
});

test("while the client looks on there are no names, no tags and no search", async () => {
  const { context, page } = await fullPhone();
  await page.getByRole("searchbox", LAID).fill("zoe");
  await page.evaluate(() => {
    const settings = JSON.parse(localStorage["tautline.settings"] ?? "{}");
    localStorage["tautline.settings"] = JSON.stringify({ ...settings, seen: true, revision: 99 });
  });
  await open(app, page, "/");
  await rows(page).first().waitFor();
  assert.equal(await page.getByRole("searchbox").count(), 0);
  assert.equal(await page.locator(".whose, .tag").count(), 0);
  const text = await page.locator("main").innerText();
  assert.doesNotMatch(text, /Zoë|Łucja|\bexam\b/);
  // A title may be somebody's name too: the plan's stands in its place, also where cuts are offered.
  const titles = await page.evaluate(() => Object.entries(localStorage)
    .filter(([key]) => key.startsWith("tautline.line.")).map(([, line]) => JSON.parse(line.slice(1))[3]));
  assert.ok(titles.length > 20, `${titles.length}`);
  assert.deepEqual(titles.filter((title) => text.includes(title)), []);
  const id = (await rows(page).first().getAttribute("href")).match(/cut\/([^/]+)/)[1];
  for (const screen of ["compare", "choose", "head"]) {
    await open(app, page, `/cut/${id}/${screen}`);
    const all = await page.evaluate(() => document.body.textContent + [...document.querySelectorAll("input")].map((e) => e.value).join());
    assert.deepEqual(titles.filter((title) => all.includes(title)), [], screen);
  }
  await open(app, page, "/");
  await rows(page).first().waitFor();
  assert.equal(await rows(page).count(), 10);
  assert.deepEqual(await violations(page), []);
  await context.close();
});

test("a new cut at the chair stands first, and no search hides it", async () => {
  const { context, page } = await fullPhone();
  await page.getByRole("searchbox", LAID).fill("zoe");
  await newExample(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await page.goto(`${app.url}/cut/${id}/walk`);
  await page.getByRole("button", { name: "Start" }).click();
  await page.getByText(/^Section 1 of/).waitFor();
  await open(app, page, "/");
  await page.getByRole("heading", { level: 2, name: "At the chair now" }).waitFor();
  await page.getByRole("searchbox", LAID).fill("nothing has this");
  assert.equal(await page.locator(".at-chair > li").count(), 1);
  await context.close();
});

for (const [name, viewport] of [["phone", { width: 360, height: 740 }], ["tablet", { width: 768, height: 1024 }], ["desk", { width: 1280, height: 800 }]]) {
  for (const colorScheme of ["light", "dark"]) {
    test(`the full list on a ${name}, ${colorScheme}`, async () => {
      const { context, page, seen } = await fullPhone({ viewport, colorScheme });
      await page.getByRole("searchbox", LAID).fill("march zo");
      await shot(page, `list-${name}-${colorScheme}`);
      assert.deepEqual(await violations(page), []);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
      assert.equal(wide, false);
      for (const box of await page.locator(".asked input, .asked select, .asked button, .cuts a.open").all()) {
        const at = await box.boundingBox();
        assert.ok(at.height >= 48, `${at.height}`);
      }
      assert.deepEqual(seen.errors, []);
      await context.close();
    });
  }
}

test("the two hundred clients are all there", async () => {
  assert.equal(Object.keys(full).filter((key) => key.startsWith("tautline.record.")).length, CLIENTS);
});
