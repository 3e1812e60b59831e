// The way on: in sight on every screen before the chair, and never to a cut that nobody chose.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { cameOut, done, face, longer, newExample, offer, section, toChair, toPlan } from "./flow.mjs";
import { open, start, violations, worked } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const NOTHING = /^Nothing is chosen yet/;

async function inSight(page, role, name) {
  const button = page.getByRole(role, { name });
  await button.waitFor();
  const box = await button.boundingBox();
  assert.ok(box.y >= 0 && box.y + box.height <= page.viewportSize().height, `${name} at ${box.y}`);
  const there = await button.evaluate((e) => {
    const box = e.getBoundingClientRect();
    return e.contains(document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2));
  });
  assert.ok(there, `${name} is covered`);
  return button;
}

test("a new cut has no plan before one is chosen, and each screen says so", async () => {
  const { context, page, seen } = await app.newPhone();
  await open(app, page, "/");
  await page.getByRole("button", { name: "New cut" }).click();
  await inSight(page, "link", "Choose a cut");
  const id = page.url().split("/cut/")[1].split("/")[0];
  // The list says so too, and names no plan.
  await open(app, page, "/");
  assert.match(await page.locator(".cuts li").innerText(), /Nothing is chosen yet · \d/);
  await open(app, page, `/cut/${id}/head`);
  await page.getByRole("link", { name: "talk it over first" }).click();
  await page.getByRole("heading", { level: 1, name: "The client" }).waitFor();
  await inSight(page, "link", "Choose a cut");
  await page.getByRole("link", { name: "Plan", exact: true }).click();
  await page.getByText(NOTHING).waitFor();
  await worked(page);
  await inSight(page, "link", "To the chair");
  assert.deepEqual(await violations(page), []);
  await page.getByRole("link", { name: "Chair", exact: true }).click();
  await page.getByText(NOTHING).waitFor();
  await page.getByText("Soft layers with a face frame").waitFor();
  await page.getByText("Head: estimated, no tape was taken.").waitFor();

  await page.getByRole("link", { name: "Choose another cut" }).click();
  await offer(page, "Graduated bob").click();
  await (await inSight(page, "button", /^Take this cut/)).click();
  await page.getByRole("heading", { level: 1, name: "Graduated bob" }).waitFor();
  assert.equal(await page.getByText(NOTHING).count(), 0);
  await open(app, page, `/cut/${id}/head`);
  await inSight(page, "link", "On to the plan");
  await open(app, page, `/cut/${id}/walk`);
  await page.getByText("Graduated bob").waitFor();
  await page.getByText(/\d+ sections, about \d+ minutes/).waitFor();
  assert.equal(await page.getByText(NOTHING).count(), 0);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a changed plan says what it was, and what that makes of it", async () => {
  const { context, page, seen } = await app.newPhone();
  await newExample(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await open(app, page, `/cut/${id}/edit`);
  await page.locator(".steps button").nth(1).click();
  const now = page.locator(".desk-numbers dd.number");
  const planned = (await now.innerText()).trim();
  assert.match(planned, /^\d[\d.–]* cm$/);
  assert.equal(await page.getByRole("columnheader", { name: "Was" }).count(), 0);
  const elevation = page.locator("#elevation");
  await elevation.fill("30");
  await elevation.press("Enter");
  await page.locator(".was").filter({ hasText: "was" }).waitFor();
  assert.match(await now.innerText(), new RegExp(`^\\d[\\d.–]* cm was ${planned}$`));
  await page.getByRole("columnheader", { name: "Was" }).waitFor();
  assert.deepEqual(await violations(page), []);

  await open(app, page, `/cut/${id}/compare`);
  const told = await page.locator(".told").innerText();
  const [, differ] = told.match(/^They differ at (\d) of 9 places\. Two is (?:longer|shorter) by up to [\d.]+ cm, at the /);
  const rows = page.getByRole("table").first().locator("tbody tr");
  const differences = await rows.locator("td:last-child").allInnerTexts();
  // Those that differ stand first; of those that are as long their ends may lie elsewhere.
  const same = differences.map((text) => text === "same");
  assert.ok(same.slice(Number(differ)).every((same) => same), differences.join());
  assert.ok(!same[0], differences.join());
  assert.deepEqual(await violations(page), []);

  await open(app, page, `/cut/${id}/edit`);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.locator(".steps button").nth(1).click();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a length that follows a measured one says which, and what was planned; the end leads back to its section", async () => {
  const { context, page, seen } = await app.newPhone();
  await newExample(app, page);
  await toPlan(page);
  await toChair(page);
  const since = page.locator(".since");
  assert.equal(await since.innerText(), "");
  const guide = await section(page);
  await longer(page);
  await longer(page);
  const came = Number.parseFloat(await cameOut(page));
  assert.ok(came > guide.number, `${came} after ${guide.number}`);
  // The first that the guide of its side moves.
  let said = "";
  for (let i = 0; i < 6 && said === ""; i += 1) {
    await done(page);
    await page.waitForTimeout(400);
    said = await since.innerText();
  }
  const [, by, name, planned] = /^([\d.]+) cm longer, follows “(.+)”\. Planned ([\d.]+) cm\.$/.exec(said) ?? [];
  assert.equal(name, guide.name, said);
  const here = await section(page);
  assert.equal(here.number, Number(planned) + Number(by), said);
  const planOf = page.url().replace("/walk", "/end");
  await face(page, "Result");
  await page.goto(planOf);
  await (await inSight(page, "link", `Go on at section ${here.place}`)).click();
  await page.getByText(new RegExp(`^Section ${here.place} of`)).waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});
