// The book: a client's card, visits, privacy, and an invented salon that comes and goes.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after, before, test } from "node:test";
import { open, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

async function newCard(page, name, { head = false } = {}) {
  await open(app, page, "/book");
  const details = page.locator("details", { hasText: "New client or practice head" });
  if (!(await details.evaluate((d) => d.open))) await details.locator("summary").click();
  if (head) await page.getByText("A practice head", { exact: true }).click();
  await page.locator("#card-name").fill(name);
  if (!head) await page.getByRole("checkbox", { name: /agreed/ }).check();
  await page.getByRole("button", { name: "Make the card" }).click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
}

test("a card follows another window, and not under the hands of someone who types", async () => {
  const { context, page: one, seen } = await app.newPhone();
  await newCard(one, "N. N.");
  const card = new URL(one.url()).pathname;
  const two = await context.newPage();
  await open(app, two, card);
  const notes = (page) => page.getByLabel("Notes", { exact: true });
  const show = async (page) => { if (!(await notes(page).isVisible())) await page.locator("summary").filter({ hasText: "Name, tags and notes" }).click(); };
  await show(one);
  await notes(one).fill("Of the first window.");
  await notes(one).press("Tab");
  await show(two);
  await two.waitForFunction(() => [...document.querySelectorAll("textarea")].some((e) => e.value === "Of the first window."));
  // Typed here while the other window keeps something: neither is lost.
  await two.locator("#card-name").fill("O. O.");
  await notes(one).fill("Of the first window, again.");
  await notes(one).press("Tab");
  await two.locator("#card-name").press("Tab");
  await two.getByRole("heading", { level: 1, name: "O. O." }).waitFor();
  await one.getByRole("heading", { level: 1, name: "O. O." }).waitFor();
  await two.waitForFunction(() => [...document.querySelectorAll("textarea")].some((e) => e.value === "Of the first window, again."));
  assert.deepEqual(seen.errors, []);
  await context.close();
});

const stored = (page) => page.evaluate(() => ({ ...localStorage }));

test("a client's card takes head and hair from a visit, hides what is private, and is deleted wholly", async () => {
  const { context, page, seen } = await app.newPhone();
  await newCard(page, "M. T.");
  const card = new URL(page.url()).pathname;
  await page.getByText("agreed", { exact: true }).waitFor();
  assert.deepEqual(await violations(page), []);

  await page.getByRole("button", { name: "New visit" }).click();
  await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
  const around = page.getByRole("textbox", { name: "Around the head" });
  await around.fill("57");
  await around.press("Enter");
  await page.getByRole("link", { name: "Visit", exact: true }).click();
  await page.getByRole("heading", { level: 1, name: "Visit" }).waitFor();
  await page.getByLabel("Notes", { exact: true }).fill("Likes it long.");
  await page.getByLabel(/^Tags/).fill("long, first visit");
  await page.getByLabel(/^Private note/).fill("nobody else's business");
  assert.deepEqual(await violations(page), []);

  await open(app, page, card);
  await page.getByText("Around the head 57 cm").waitFor();
  assert.equal(await page.locator(".cuts li").count(), 1);
  // The card has no private note of a visit.
  const texts = await stored(page);
  const record = Object.entries(texts).find(([key]) => key.startsWith("tautline.record."));
  assert.ok(!record[1].includes("business"));
  // No field asks for an address or a day of birth.
  assert.equal(await page.locator("input[type=email], input[type=tel], [autocomplete*=address], [autocomplete=bday]").count(), 0);

  // The next visit begins with the head as it was measured.
  await page.getByRole("button", { name: "New visit" }).click();
  await page.getByRole("heading", { level: 1, name: "The client" }).waitFor();
  await page.getByRole("link", { name: "Head", exact: true }).click();
  assert.equal(await page.getByRole("textbox", { name: "Around the head" }).inputValue(), "57 cm");

  // While the client looks on there are no names and no private notes.
  await open(app, page, "/settings");
  await page.getByRole("checkbox", { name: /The client looks on/ }).check();
  for (const path of ["/book", card]) {
    await open(app, page, path);
    assert.ok(!(await page.locator("main").innerText()).includes("M. T."), path);
  }
  const visit = Object.keys(texts).find((key) => key.startsWith("tautline.cut.")).split(".")[2];
  for (const screen of ["visit", "client", "plan", "end"]) {
    await open(app, page, `/cut/${visit}/${screen}`);
    const shown = await page.locator("main").evaluate((m) => m.innerText + [...m.querySelectorAll("input,textarea")].map((i) => i.value).join(" "));
    assert.ok(!shown.includes("business") && !shown.includes("M. T."), screen);
  }
  await open(app, page, "/settings");
  await page.getByRole("checkbox", { name: /The client looks on/ }).uncheck();

  await open(app, page, card);
  const saved = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save this card and its visits as a file" }).click();
  const file = JSON.parse(await readFile(await (await saved).path(), "utf8"));
  assert.deepEqual([file.kind, file.records.map((r) => r.name), file.cuts.length], ["tautline", ["M. T."], 2]);

  await page.getByRole("button", { name: "Delete this card and its visits" }).click();
  await page.getByRole("button", { name: "Delete M. T. and 2 visits for good" }).click();
  await page.getByRole("heading", { level: 1, name: "The book" }).waitFor();
  const left = Object.keys(await stored(page)).filter((key) => /\.(record|cut|undo|line)\./.test(key));
  assert.deepEqual(left, []);
  await open(app, page, "/book");
  assert.equal(await page.locator(".cuts li").count(), 0);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("the invented salon is loaded, marked, found, and taken away with nothing else", async () => {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(60000);
  await newCard(page, "Own head", { head: true });
  await open(app, page, "/book");
  await page.locator("summary", { hasText: "An invented salon" }).click();
  await page.getByRole("button", { name: "Load the invented salon" }).click();
  await page.getByText("9 cards").waitFor();
  await page.getByRole("searchbox").fill("FERN");
  await page.getByText("1 card", { exact: true }).waitFor();
  await page.getByRole("link", { name: /A\. Fern \(invented\)/ }).click();
  await page.getByText("Of the invented salon: nobody is meant.").waitFor();
  assert.equal(await page.locator(".cuts li").count(), 3);
  assert.deepEqual(await violations(page), []);
  await open(app, page, "/book");
  assert.deepEqual(await violations(page), []);
  // Nobody of them was here for two years but one.
  await page.locator("summary", { hasText: "Not here for 24 months" }).click();
  await page.locator("details[open] .cuts").getByText("E. Vale (invented)").waitFor();
  await page.locator("summary", { hasText: "An invented salon" }).click();
  await page.getByRole("button", { name: "Take the invented salon away" }).click();
  await page.getByText("1 card", { exact: true }).waitFor();
  const left = Object.values(await stored(page)).filter((text) => text.includes("invented"));
  assert.deepEqual(left, []);
  assert.deepEqual(seen.errors, []);
  await context.close();
});
