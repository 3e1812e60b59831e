// Aiming backwards in a real browser: by dragging, by keyboard and by the list; met and not met.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { askTooMuch, newExample, toPlan } from "./flow.mjs";
import { start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

async function toAim(page) {
  await newExample(app, page);
  await toPlan(page);
  await page.getByRole("link", { name: "Aim backwards" }).click();
  await page.getByRole("heading", { level: 1, name: "Aim backwards" }).waitFor();
}

const handle = (page, name) => page.getByRole("slider", { name: `${name}, height` });
const said = (page, name) => handle(page, name).getAttribute("aria-valuetext");
const height = async (page, name) => Number(await handle(page, name).getAttribute("aria-valuenow"));

async function find(page) {
  await page.getByRole("button", { name: "Find the holds" }).click();
  await page.getByRole("heading", { level: 2, name: "How to hold it" }).waitFor({ timeout: 50000 });
}

test("dragged and moved by keys, met, and taken into the plan", async () => {
  const { context, page, seen } = await app.newPhone();
  await toAim(page);
  assert.match(await said(page, "Front pieces"), /does not count/);
  // Dragged close to a landmark, it lies on it.
  const from = await handle(page, "Front pieces").boundingBox();
  assert.ok(from.width >= 48 && from.height >= 48);
  const [x, y] = [from.x + from.width / 2, from.y + from.height / 2];
  const before = await height(page, "Front pieces");
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + 12, { steps: 4 });
  await page.mouse.up();
  assert.ok(await height(page, "Front pieces") < before);
  assert.doesNotMatch(await said(page, "Front pieces"), /does not count/);
  assert.ok(await page.getByRole("checkbox", { name: /^Front pieces/ }).isChecked());
  // By keys: to the next landmark, half a centimetre on, and back.
  await handle(page, "Front pieces").focus();
  await page.keyboard.press("PageUp");
  const at = await height(page, "Front pieces");
  await page.keyboard.press("ArrowDown");
  assert.ok(Math.abs(await height(page, "Front pieces") - (at - 0.5)) < 0.11);
  await page.getByLabel("Front pieces: landmark").selectOption("chin");
  assert.equal(await said(page, "Front pieces"), "at the chin");
  // What does not read stays, with a sentence.
  const below = page.getByRole("textbox", { name: /Below it/ });
  await below.fill("low");
  await below.press("Enter");
  await page.getByText("is not a length").waitFor();
  await below.fill("−0.5");
  await below.press("Enter");
  await page.getByText("is not a length").waitFor({ state: "detached" });
  assert.equal(await said(page, "Front pieces"), "0.5 cm above the chin");

  // It is kept.
  await page.reload();
  await handle(page, "Front pieces").waitFor();
  assert.equal(await said(page, "Front pieces"), "0.5 cm above the chin");

  await find(page);
  await page.getByText(/Front pieces end .* chin, as asked\./).waitFor();
  await page.getByText(/“Front guide”: .* lower\./).waitFor();
  const rows = page.getByRole("row", { name: /^Front pieces/ });
  assert.match(await rows.innerText(), /0\.5 cm above the chin/);
  assert.deepEqual(await violations(page), []);
  const table = async () => {
    await page.getByRole("table").waitFor();
    return page.getByRole("table").innerText();
  };
  await page.getByRole("link", { name: "Leave the plan as it is" }).click();
  await page.getByRole("heading", { level: 2, name: "How long each section is cut" }).waitFor();
  const old = await table();
  await page.goBack();
  await find(page);
  await page.getByRole("button", { name: "Take it into the plan" }).click();
  await page.getByRole("heading", { level: 2, name: "How long each section is cut" }).waitFor();
  assert.notEqual(await table(), old);
  // It can be taken back, and done again.
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await table(), old);
  await page.getByRole("button", { name: "Redo" }).click();
  // The plan now does what was asked: it falls there before anything is changed.
  await page.getByRole("link", { name: "Aim backwards" }).click();
  await find(page);
  await page.getByText("Nothing needs to change").waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("an aim that cannot be met says why", async () => {
  const { context, page, seen } = await app.newPhone({ viewport: { width: 320, height: 640 } });
  await toAim(page);
  await askTooMuch(page);
  await find(page);
  await page.getByText(/Gives way:\s+Front pieces end .* below the cheekbone\./).waitFor();
  await page.getByText("It gives way to: no more than 1 cm comes off.").waitFor();
  await page.getByText(/Each cm more length in “Front guide” lowers it by/).waitFor();
  assert.deepEqual(await violations(page), []);
  // The other way round, the limit gives way.
  const up = page.getByRole("button", { name: "Front pieces: more important" });
  while (await up.isEnabled()) await up.click();
  await find(page);
  await page.getByText(/Gives way:\s+At most .* comes off; 1 cm was allowed\./).waitFor();
  const wide = await page.evaluate(() => document.documentElement.scrollWidth);
  assert.ok(wide <= 320, `${wide} px wide`);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("stopped, dark and with nothing asked", async () => {
  const { context, page, seen } = await app.newPhone({ colorScheme: "dark", viewport: { width: 320, height: 640 } });
  await toAim(page);
  assert.deepEqual(await violations(page), []);
  await page.getByRole("button", { name: "Find the holds" }).click();
  await page.getByText("Nothing counts yet.").waitFor();
  for (const name of ["Weight", "Back", "Sides"]) {
    await handle(page, name).focus();
    await page.keyboard.press("PageUp");
  }
  await page.getByRole("button", { name: "Find the holds" }).click();
  const stop = page.getByRole("button", { name: "Stop" });
  if (await stop.isVisible()) {
    await stop.click();
    await page.getByRole("button", { name: "Find the holds" }).waitFor();
  }
  await find(page);
  assert.deepEqual(await violations(page), []);
  assert.deepEqual(seen.errors, []);
  await context.close();
});
