// From an empty app to a cut fitted to a client, in few taps; then changed, compared, aimed.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { offer } from "./flow.mjs";
import { open, start } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

test("from an empty app a built-in cut is fitted to a client in under nine taps", async () => {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(10000);
  // Every tap of the person counts, those into a field too; not those that a screen makes itself.
  let taps = 0;
  await page.exposeFunction("tapped", () => { taps += 1; });
  await page.addInitScript(() => {
    addEventListener("pointerdown", (event) => { if (event.isTrusted) globalThis.tapped(); }, true);
  });
  await open(app, page, "/");
  await page.getByRole("button", { name: "New cut" }).tap();
  await page.getByLabel("Around the head").tap();
  await page.keyboard.type("57");
  await page.getByRole("link", { name: "Talk it over first" }).tap();
  await page.getByRole("combobox", { name: "Front: never shorter than" }).tap();
  await page.keyboard.press("Escape");
  await page.getByRole("combobox", { name: "Front: never shorter than" }).selectOption("chin");
  await page.getByRole("link", { name: "Choose a cut" }).tap();
  await offer(page, "Uniform layers").tap();
  await page.getByRole("button", { name: "Take this cut" }).tap();
  await page.getByRole("heading", { level: 1, name: "Uniform layers" }).waitFor();
  await page.getByRole("table").waitFor();
  assert.ok(taps >= 7 && taps < 9, `${taps} taps`);
  // It is this client's: the limit is held against the plan, the tape is the one that was typed.
  await page.getByText(/Hair of the front, promised to reach the chin/).waitFor();
  await page.getByRole("link", { name: "Head" }).click();
  assert.equal(await page.getByLabel("Around the head").inputValue(), "57 cm");

  // A guide is changed, undone, compared.
  await page.getByRole("link", { name: "Plan", exact: true }).click();
  await page.getByRole("link", { name: "Change it" }).click();
  const length = page.locator(".desk-numbers dd").nth(1);
  const was = await length.innerText();
  const guide = page.locator(".desk-form").getByRole("button", { name: /^Longer/ }).first();
  for (let i = 0; i < 3; i += 1) await guide.click();
  await page.waitForFunction((old) => document.querySelectorAll(".desk-numbers dd")[1].innerText !== old, was);
  for (let i = 0; i < 3; i += 1) await page.getByRole("button", { name: "Undo" }).click();
  await page.waitForFunction((old) => document.querySelectorAll(".desk-numbers dd")[1].innerText === old, was);
  await page.getByRole("link", { name: "Compare" }).click();
  await page.getByRole("row", { name: /^Crown/ }).first().waitFor();
  await page.getByRole("link", { name: "Back to the plan" }).click();

  // An aim that cannot be met is read of, with why.
  await page.getByRole("link", { name: "Aim backwards" }).click();
  await page.getByRole("checkbox", { name: /^Back(?! no)/ }).check();
  await page.getByLabel("Back: landmark").selectOption("waist");
  await page.getByRole("button", { name: "Find the holds" }).click();
  await page.getByRole("heading", { level: 2, name: "How to hold it" }).waitFor({ timeout: 50000 });
  await page.getByText(/The back ends .* above the waist/).waitFor();
  await page.getByText(/the hair is not that long|Cannot be met|gives way/i).first().waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});
