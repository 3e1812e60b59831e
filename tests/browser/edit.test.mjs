// Changing a plan: a guide changed, taken back, compared; what is invalid said where it is; nothing
// typed lost; lengths, fall and weight that follow a dragging hand.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { newExample, offer, toPlan } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

async function toEditor(options) {
  const { context, page, seen } = await app.newPhone(options);
  page.setDefaultTimeout(10000);
  await newExample(app, page);
  await toPlan(page);
  await page.getByRole("link", { name: "Change it" }).click();
  await page.getByRole("heading", { level: 1, name: "Change the plan" }).waitFor();
  return { context, page, seen };
}

const openStep = (page, name) => page.locator(".steps").getByRole("button", { name }).click();
const cutAt = (page) => page.locator(".desk-numbers dd").nth(1).innerText();
const hair = (page) => page.locator(".d-hairs").getAttribute("d");

test("a guide is changed, taken back and compared with how it came", async () => {
  const { context, page, seen } = await toEditor();
  await openStep(page, /Sides to the parting/);
  const [length, fall] = [await cutAt(page), await hair(page)];
  const longer = page.getByLabel("Leave it longer than the guide by");
  await longer.fill("3 cm");
  await longer.press("Enter");
  await page.waitForFunction((old) => document.querySelector(".d-hairs").getAttribute("d") !== old, fall);
  assert.notEqual(await cutAt(page), length);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.waitForFunction((old) => document.querySelector(".d-hairs").getAttribute("d") === old, fall);
  assert.equal(await cutAt(page), length);
  assert.equal(await longer.inputValue(), "0 cm");
  // What is typed meanwhile and does not read is not lost by it.
  const elevation = page.locator("#elevation");
  const lift = await elevation.inputValue();
  await elevation.fill("steep");
  await elevation.press("Enter");
  await page.getByRole("button", { name: "Redo" }).click();
  await page.waitForFunction((old) => document.querySelector(".d-hairs").getAttribute("d") !== old, fall);
  assert.equal(await elevation.inputValue(), "steep");
  await elevation.fill(lift);
  await elevation.press("Enter");
  assert.equal(await longer.inputValue(), "3 cm");

  // It is kept, and so is what can be taken back.
  await page.reload();
  await openStep(page, /Sides to the parting/);
  assert.equal(await longer.inputValue(), "3 cm");
  await page.getByRole("link", { name: "Compare" }).click();
  await page.getByRole("heading", { level: 1, name: "Compare" }).waitFor();
  assert.match(await page.getByRole("row", { name: /^Temple/ }).first().innerText(), /\+/);
  assert.match(await page.getByRole("row", { name: /^Nape/ }).first().innerText(), /same/);
  assert.deepEqual(await violations(page), []);
  await shot(page, "compare");
  await page.getByLabel("One").selectOption({ label: "The hair before" });
  assert.match(await page.getByRole("row", { name: /^Temple/ }).first().innerText(), /−/);
  await page.goBack();
  await page.getByRole("button", { name: "Undo" }).click();
  await openStep(page, /Sides to the parting/);
  assert.equal(await longer.inputValue(), "0 cm");
  assert.ok(await page.getByRole("button", { name: "Undo" }).isDisabled());
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a dragged elevation moves lengths, fall and weight before it is let go, and is kept then", async () => {
  const { context, page, seen } = await toEditor();
  await openStep(page, /Sides to the parting/);
  const [length, fall] = [await cutAt(page), await hair(page)];
  const slider = page.getByRole("slider", { name: "Elevation" });
  const kept = () => page.evaluate(() => Object.entries(localStorage)
    .filter(([key]) => key.startsWith("tautline.cut.")).map(([, text]) => text).join());
  const stored = await kept();
  await slider.evaluate((el) => {
    el.value = "45";
    el.dispatchEvent(new Event("input", { bubbles: true }));
  });
  assert.notEqual(await hair(page), fall);
  assert.notEqual(await cutAt(page), length);
  assert.notEqual(await page.locator(".d-weight-before").getAttribute("d"), "");
  assert.equal(await kept(), stored);
  await slider.evaluate((el) => el.dispatchEvent(new Event("change", { bubbles: true })));
  await page.waitForFunction(() => document.querySelector(".d-weight-before").getAttribute("d") === "");
  assert.notEqual(await kept(), stored);
  // By keyboard alike: an arrow is one degree.
  await slider.focus();
  await page.keyboard.press("ArrowRight");
  assert.equal(await page.locator("#elevation").inputValue(), "46°");
  await page.keyboard.press("Control+z");
  assert.equal(await page.locator("#elevation").inputValue(), "45°");
  // What the chair reads out follows the hold.
  await page.getByText("Words and cautions").click();
  assert.match(await page.getByLabel("Combing").getAttribute("placeholder"), /45°/);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("what is invalid is said where it is, and nothing typed is lost", async () => {
  const { context, page, seen } = await toEditor();
  await openStep(page, /Sides to the parting/);
  const elevation = page.locator("#elevation");
  await elevation.fill("steep");
  await elevation.press("Enter");
  await page.getByText("“steep” is not an angle").waitFor();
  await page.reload();
  await openStep(page, /Sides to the parting/);
  assert.equal(await elevation.inputValue(), "steep");
  await page.getByText("“steep” is not an angle").waitFor();
  await elevation.fill("60");
  await elevation.press("Enter");
  assert.equal(await elevation.inputValue(), "60°");
  assert.equal(await page.getByText("is not an angle").count(), 0);

  // Moved before its guide, a step says so; moved back, all is well.
  await page.getByRole("button", { name: "Earlier" }).click();
  await page.locator(".part .fault").filter({ hasText: "It is guided by “Front guide”" }).waitFor();
  await page.locator(".steps").getByRole("button", { name: /1\. Sides.*Look here/s }).waitFor();
  await shot(page, "edit-fault");
  assert.deepEqual(await violations(page), []);
  await page.getByRole("button", { name: "Later" }).click();
  await page.locator(".fault").first().waitFor({ state: "detached" });

  // Duplicated, cut on one side only, mirrored.
  await page.getByRole("button", { name: "Duplicate" }).click();
  await page.locator(".steps").getByRole("button", { name: /3\. Sides.*again/ }).waitFor();
  await page.getByText("Where", { exact: true }).click();
  await page.getByLabel("Sides", { exact: true }).selectOption({ label: "Left side only" });
  await page.getByRole("button", { name: "Mirror to the other side" }).click();
  await page.locator(".steps").getByRole("button", { name: /4\. .*other side.*right side only/s }).waitFor();
  await page.getByRole("button", { name: "Remove", exact: true }).click();
  assert.equal(await page.locator(".steps li").count(), 5);
  await page.getByRole("button", { name: "New step" }).click();
  await page.getByRole("heading", { level: 2, name: "New step" }).waitFor();
  await page.getByLabel("Partings").selectOption({ label: "Radial from the high point" });
  await page.getByLabel("Region").selectOption({ label: "Nape, below the occipital bone" });
  assert.match(await cutAt(page), /cm/);
  for (let i = 0; i < 30 && await page.getByRole("button", { name: "Undo" }).isEnabled(); i += 1) {
    await page.getByRole("button", { name: "Undo" }).click();
  }
  assert.equal(await page.locator(".steps li").count(), 4);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a changed plan has a name of its own and is offered to the next cut", async () => {
  const { context, page, seen } = await toEditor();
  await page.getByLabel("Name of the plan").fill("Layers, mine <b>");
  await openStep(page, /Sides to the parting/);
  await page.locator("#elevation").fill("60");
  await page.locator("#elevation").press("Enter");
  const length = await cutAt(page);
  await open(app, page, "/");
  await page.getByText("Layers, mine <b>").waitFor();
  await page.getByRole("button", { name: "New cut" }).click();
  await page.getByRole("link", { name: "Choose a cut" }).click();
  await page.getByRole("heading", { level: 2, name: "Your own" }).waitFor();
  await offer(page, "Layers, mine <b>").click();
  await page.getByRole("button", { name: "Take this cut" }).click();
  await page.getByRole("heading", { level: 1, name: "Layers, mine <b>" }).waitFor();
  await page.getByRole("link", { name: "Change it" }).click();
  await openStep(page, /Sides to the parting/);
  assert.equal(await page.locator("#elevation").inputValue(), "60°");
  assert.notEqual(await cutAt(page), length, "another head, other lengths");
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await page.getByLabel("Name of the plan").inputValue(), "Soft layers with a face frame");
  assert.deepEqual(seen.errors, []);
  await context.close();
});

for (const colorScheme of ["light", "dark"]) {
  test(`every way to hold can be chosen and read, 320 px wide, ${colorScheme}`, async () => {
    const { context, page, seen } = await toEditor({ colorScheme, viewport: { width: 320, height: 640 } });
    await openStep(page, /Back, brought forward/);
    for (const part of await page.locator("details").all()) await part.evaluate((el) => { el.open = true; });
    const kinds = await page.getByLabel("How it is held").locator("option").allInnerTexts();
    assert.equal(kinds.length, 7);
    for (const label of kinds) {
      await page.getByLabel("How it is held").selectOption({ label });
      assert.deepEqual(await violations(page), [], label);
      assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 320, label);
    }
    const small = await page.locator("button, select, summary, .options label").evaluateAll((all) => all
      .filter((el) => el.offsetHeight > 0 && el.offsetHeight < 47.5).map((el) => el.innerText));
    assert.deepEqual(small, []);
    assert.deepEqual(seen.errors, []);
    await context.close();
  });
}
