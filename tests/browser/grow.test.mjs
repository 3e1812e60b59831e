// Hair that grows: the day to return with its file for a calendar, the next cut out of one that was made, and
// what is left on a practice head.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { newExample, done } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

// The invented example with another plan, as it was chosen and never opened.
async function withPlan(page, plan) {
  const id = page.url().split("/cut/")[1].split("/")[0];
  await page.evaluate(([id, plan]) => {
    const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${id}.`));
    const cut = JSON.parse(localStorage.getItem(key));
    localStorage.setItem(key, JSON.stringify({ ...cut, plan, choices: {}, own: undefined }));
  }, [id, plan]);
  return id;
}

async function finished(page, plan) {
  await newExample(app, page);
  const id = await withPlan(page, plan);
  await open(app, page, `/cut/${id}/walk`);
  await page.getByRole("button", { name: "Start" }).click();
  await page.getByText(/^Section 1 of/).waitFor();
  while ((await page.getByText(/^Section \d+ of \d+$/).count()) > 0) await done(page);
  await page.getByRole("heading", { level: 1, name: "Planned and cut" }).waitFor();
  return id;
}

// The device's clock stands on a day, from the next page on.
async function on(page, day) {
  await page.evaluate((day) => sessionStorage.setItem("test.day", day), day);
}
const clock = () => {
  const Real = Date;
  const day = sessionStorage.getItem("test.day");
  if (day === null) return;
  const ahead = new Real(`${day}T10:00:00`).getTime() - Real.now();
  globalThis.Date = class extends Real {
    constructor(...given) {
      if (given.length > 0) super(...given);
      else super(Real.now() + ahead);
    }
    static now() { return Real.now() + ahead; }
  };
};

// RFC 5545: lines unfolded, each name with its value.
const lines = (text) => text.replaceAll("\r\n ", "").split("\r\n").filter(Boolean).map((line) => line.split(/:(.*)/s));

test("a fringe says when to return, a calendar takes the day, and the next cut begins with what was left", { timeout: 150_000 }, async () => {
  const { context, page, seen } = await app.newPhone({ acceptDownloads: true });
  await page.addInitScript(clock);
  await open(app, page, "/");
  await on(page, "2026-09-01");
  const id = await finished(page, "straight-fringe");
  // Half an inch a month and a centimetre of patience: three weeks and a half.
  const outlook = page.locator(".outlook");
  await outlook.getByRole("heading", { name: "When to return" }).waitFor();
  const by = await outlook.locator(".return-day strong").innerText();
  assert.match(by, /^2[3-6] September 2026$/);
  assert.match(await outlook.innerText(), /1 cm past .*Common practice is 2 to 4/s);
  assert.match(await outlook.innerText(), /1\.25 cm a month, the usual rate/);
  await outlook.getByText("Where the ends lie, week by week").click();
  assert.ok((await outlook.locator(".weeks tbody tr").count()) >= 1);
  assert.deepEqual(await violations(page), []);
  await shot(page, "grow-end");

  await outlook.getByRole("button", { name: `Agree on ${by}` }).click();
  const day = await outlook.getByLabel("Agreed for").inputValue();
  assert.match(day, /^2026-09-2[3-6]$/);
  const download = page.waitForEvent("download");
  await outlook.getByRole("button", { name: "Put it in the calendar" }).click();
  const file = await download;
  assert.equal(file.suggestedFilename(), `haircut-${day}.ics`);
  const event = new Map(lines(await readFile(await file.path(), "utf8")));
  assert.equal(event.get("DTSTART;VALUE=DATE"), day.replaceAll("-", ""));
  assert.equal(event.get("SUMMARY"), "Haircut: Straight fringe");
  assert.ok(event.get("UID").startsWith(id));
  await outlook.getByText("Saved among the downloads.").waitFor();
  assert.deepEqual(await violations(page), []);
  // It is kept.
  await page.reload();
  await outlook.getByLabel("Agreed for").waitFor();
  assert.equal(await outlook.getByLabel("Agreed for").inputValue(), day);

  // On the day itself nothing has grown; two months later there is something to take back.
  assert.equal(await page.getByRole("button", { name: "Trim back to this shape" }).count(), 0);
  await on(page, "2026-11-01");
  await open(app, page, `/cut/${id}/visit`);
  await page.getByText("grown 2.5 cm since").waitFor();
  await page.getByRole("button", { name: "Trim back to this shape" }).click();
  await page.getByText("As left on 1 September 2026, grown 2.5 cm since.").waitFor();
  await page.getByRole("table").first().waitFor();
  assert.equal(await page.getByText("How long is the hair now?").count(), 0);
  assert.deepEqual(await violations(page), []);
  await shot(page, "grow-plan");
  const next = page.url().split("/cut/")[1].split("/")[0];
  assert.notEqual(next, id);
  const plan = page.url();
  await open(app, page, `/cut/${next}/sheet`);
  await page.getByText("as left on 1 September 2026, grown 2.5 cm since").waitFor();
  await open(app, page, new URL(plan).pathname);
  await page.getByRole("button", { name: "Ask how long it is instead" }).click();
  await page.getByText("How long is the hair now?").waitFor();
  assert.equal(await page.getByText("As left on").count(), 0);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a practice head says what is left on it and in which order to use it up", { timeout: 90_000 }, async () => {
  const { context, page, seen } = await app.newPhone();
  await open(app, page, "/book");
  const details = page.locator("details", { hasText: "New client or practice head" });
  if (!(await details.evaluate((d) => d.open))) await details.locator("summary").click();
  await page.getByText("A practice head", { exact: true }).click();
  await page.locator("#card-name").fill("Invented head");
  await page.getByRole("button", { name: "Make the card" }).click();
  await page.getByRole("heading", { level: 1, name: "Invented head" }).waitFor();
  const ledger = page.locator(".head-ledger");
  await ledger.getByText(/Nobody said how long/).waitFor();
  const field = page.getByRole("textbox", { name: "Hair when it was new" });
  await field.fill("50");
  await field.press("Enter");
  await ledger.getByText("New it was 50 cm all over").waitFor();
  assert.equal(await ledger.locator("tbody tr").count(), 6);
  assert.equal(await ledger.locator("tbody tr").first().innerText().then((t) => t.replace(/\s+/g, " ")), "Front 50 50 100 %");
  const began = Date.now();
  await ledger.getByRole("button", { name: "Work it out" }).click();
  await ledger.locator(".order li").first().waitFor();
  console.log(`# every built-in cut tried and put into an order: ${Date.now() - began} ms`);
  assert.ok((await ledger.locator(".order li").count()) >= 5);
  assert.deepEqual(await violations(page), []);
  await shot(page, "grow-ledger");
  assert.deepEqual(seen.errors, []);
  await context.close();
});
