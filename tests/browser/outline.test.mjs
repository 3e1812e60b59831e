// The outline with the weight beside it: every choice of it, its numbers, legible on a phone; and two cuts
// laid over each other.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { done, newExample, toChair, toPlan } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const picture = (page) => page.getByRole("img", { name: /^The outline/ });
const group = (page, name) => page.getByRole("group", { name });

async function toOutline(page) {
  await page.getByRole("link", { name: "Pictures" }).click();
  await page.getByRole("link", { name: "Outline", exact: true }).click();
  await picture(page).waitFor();
}

// The smallest word of the picture in CSS pixels, and whether the page is wider than the screen.
const legible = (page) => page.evaluate(() => {
  const words = [...document.querySelectorAll("svg.outline text")];
  const tall = words.map((word) => word.getScreenCTM().a * Number.parseFloat(getComputedStyle(word).fontSize));
  const root = document.documentElement;
  return { words: words.length, least: Math.min(...tall), over: root.scrollWidth - root.clientWidth };
});

// How far below the top of the head the weight line is drawn, cm; and the rows of the table of heights.
const weight = (page) => page.evaluate(() => {
  const down = (text) => Number.parseFloat(text.replace("under ", ""));
  const svg = document.querySelector("svg.outline");
  const line = svg.querySelector(".o-weight").getBoundingClientRect();
  const scale = svg.getScreenCTM().a * 10;
  const ticks = [...svg.querySelectorAll("text.o-number")].filter((t) => t.textContent.trim() === "0");
  const zero = Math.min(...ticks.map((t) => { const b = t.getBoundingClientRect(); return b.top + b.height / 2; }));
  const rows = [...document.querySelectorAll("table.heights tbody tr")].map((row) => {
    const [from, to] = row.querySelector("th").textContent.split("–").map(Number);
    return { from, to, share: down(row.querySelector("td").textContent) || 0 };
  });
  return { down: (line.top + line.height / 2 - zero) / scale, rows };
});

test("every view and everything it may be laid against is reached, legible and without fault", async () => {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(20000);
  await newExample(app, page);
  await toPlan(page);
  await toOutline(page);
  assert.equal(await group(page, "Laid against").getByRole("radio").count(), 3);
  for (const from of ["Left", "Right", "Front", "Back"]) {
    await group(page, "Seen from").getByText(from, { exact: true }).click();
    await page.getByRole("img", { name: `The outline from the ${from.toLowerCase()}` }).waitFor();
    for (const against of ["Before", "Other side", "Nothing"]) {
      await group(page, "Laid against").getByText(against, { exact: true }).click();
      const dashed = against !== "Nothing";
      await page.waitForFunction((dashed) => (document.querySelectorAll("table.ends thead th").length === 3) === dashed, dashed);
      assert.equal(await page.locator("svg.outline .o-edge").count() > 0, true, `${from}, ${against}`);
      const { words, least, over } = await legible(page);
      assert.ok(words > 8 && least >= 12, `${from}, ${against}: ${least} px`);
      assert.ok(over <= 0, `${from}, ${against}: ${over} px too wide`);
    }
    assert.deepEqual(await violations(page), [], from);
  }
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("the numbers of the tables are those of the picture", async () => {
  const { context, page, seen } = await app.newPhone({ viewport: { width: 1280, height: 800 } });
  page.setDefaultTimeout(20000);
  await newExample(app, page);
  await toPlan(page);
  await toOutline(page);
  await page.getByText("The weight by height").click();
  const { down, rows } = await weight(page);
  const sum = rows.reduce((all, row) => all + row.share, 0);
  assert.ok(Math.abs(sum - 100) < 12, `${sum} %`);
  const most = rows.reduce((a, b) => (b.share > a.share ? b : a));
  assert.ok(down > most.from - 1 && down < most.to + 1, `${down} cm, most in ${most.from} to ${most.to}`);
  // What ends is told by the landmarks that the compare screen tells it by.
  const told = await page.getByRole("row", { name: /Front pieces/ }).innerText();
  assert.match(told, /(at|below|above) the /);
  await shot(page, "outline-wide");
  await page.getByRole("link", { name: "Compare" }).click();
  await page.getByRole("heading", { level: 1, name: "Compare" }).waitFor();
  await page.getByText("Over each other").click();
  await picture(page).waitFor();
  assert.equal(await page.locator("svg.outline .o-dashed").count() > 0, true);
  // One is the hair before, Two the plan: told here as it was there.
  const again = await page.getByRole("row", { name: /Front pieces/ }).innerText();
  assert.equal(again.split("\t")[1], told.split("\t")[1]);
  assert.deepEqual(await violations(page), []);
  await shot(page, "compare-over");
  await page.getByLabel("Two").selectOption({ label: "The other side of One, mirrored" });
  await page.waitForFunction(() => /Left\s*Right/.test(document.querySelector("table.ends thead").textContent));
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("what was cut is laid against the plan once something was cut", async () => {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(20000);
  await newExample(app, page);
  await toPlan(page);
  const plan = new URL(page.url()).pathname;
  await toChair(page);
  await done(page);
  await open(app, page, plan.replace("/plan", "/see/outline"));
  await picture(page).waitFor();
  await group(page, "Laid against").getByText("The plan", { exact: true }).click();
  await page.waitForFunction(() => document.querySelector("table.ends thead").textContent.includes("As planned"));
  assert.match(await page.locator("table.ends thead").innerText(), /As it was cut/);
  await open(app, page, plan.replace("/plan", "/compare"));
  await page.getByLabel("Two").selectOption({ label: "This plan, as it was cut" });
  await page.getByRole("row", { name: /^Crown/ }).first().waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});
