// The head in the hand: views, keys, drag, the way through the cut.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { newExample } from "./flow.mjs";
import { start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app?.close());

async function head(app, page, query = "") {
  await newExample(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await page.goto(`${app.url}/cut/${id}/see/head${query}`);
  await page.locator("#head-picture path.d-head[d^=M]").waitFor({ state: "attached" });
}

const outline = (page) => page.locator("#head-picture path.d-head").getAttribute("d");
const changed = (page, old) => page.waitForFunction((old) => {
  const path = document.querySelector("#head-picture path.d-head")?.getAttribute("d");
  return path && path !== old;
}, old);
const from = (page) => page.locator("figcaption [aria-live]").innerText();
const where = (page) => page.locator(".head-where").innerText();

test("named views turn the head, and the page says from where", async () => {
  const { page, context, seen } = await app.newPhone();
  await head(app, page);
  for (const [button, said] of [
    ["Front", "From the front"],
    ["Left side", "From the client’s left"],
    ["Right side", "From the client’s right"],
    ["Back", "From the back"],
    ["Top", "From the top"],
    ["Three-quarter", "From the front, a little above, turned to the client’s left"],
  ]) {
    const old = await outline(page);
    await page.getByRole("button", { name: button, exact: true }).click();
    await page.waitForFunction((said) => document.querySelector("figcaption [aria-live]").innerText === said, said);
    // The words may come a frame before the picture.
    await changed(page, old);
    const pressed = page.locator(".head-views [aria-pressed=true]");
    await pressed.waitFor();
    assert.match(await pressed.innerText(), new RegExp(button));
  }
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("keys and a dragging finger turn it; a finger never nods it", async () => {
  const { page, context } = await app.newPhone({ reducedMotion: "reduce" });
  await head(app, page);
  await page.getByRole("button", { name: "Front", exact: true }).click();
  assert.equal(await from(page), "From the front");
  const handle = page.getByRole("group", { name: /^The head/ });
  await handle.focus();
  for (let i = 0; i < 6; i += 1) await page.keyboard.press("ArrowRight");
  assert.equal(await from(page), "From the client’s left");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("ArrowUp");
  assert.equal(await from(page), "From the client’s left, from above");
  await page.keyboard.press("Home");
  assert.equal(await from(page), "From the front");
  const drag = (kind, dx, dy) => handle.evaluate((own, [kind, dx, dy]) => {
    const box = own.getBoundingClientRect();
    const at = (type, x, y) => own.dispatchEvent(new PointerEvent(type, {
      bubbles: true, pointerType: kind, pointerId: 7, clientX: x, clientY: y, button: 0,
    }));
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    own.setPointerCapture = () => {};
    at("pointerdown", x, y);
    at("pointermove", x + dx * box.width, y + dy * box.width);
    at("pointerup", x, y);
    return new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  }, [kind, dx, dy]);
  await drag("touch", -0.5, 0.3);
  assert.equal(await from(page), "From the client’s left");
  await drag("mouse", 0.5, 0.2);
  assert.equal(await from(page), "From the front, from above");
  await context.close();
});

test("the way through the cut: on, back, by step, by address", async () => {
  const { page, context, seen } = await app.newPhone();
  await head(app, page);
  const first = await where(page);
  assert.match(first, /^Section 1 of \d+: .+/);
  const count = Number(first.match(/of (\d+)/)[1]);
  const back = page.getByRole("button", { name: "Previous", exact: true });
  assert.equal(await back.isDisabled(), true);
  await page.getByRole("button", { name: "Next", exact: true }).click();
  assert.match(await where(page), /^Section 2 of/);
  await page.getByRole("button", { name: "Last", exact: true }).click();
  assert.match(await where(page), new RegExp(`^Section ${count} of ${count}`));
  await page.getByRole("button", { name: "First", exact: true }).click();
  assert.equal(await where(page), first);
  await page.locator("#head-step").selectOption({ index: 1 });
  assert.doesNotMatch(await where(page), /^Section 1 of/);
  // The numbers stand beside it.
  assert.match(await page.locator(".head-numbers").innerText(), /Falls to, dry/);
  await page.getByText("Let down", { exact: true }).click();
  await page.locator("#head-picture path.t-hair[d^=M]").waitFor({ state: "attached" });
  assert.equal(await page.locator("#head-picture path.d-strand").getAttribute("d"), "");
  assert.match(await page.locator(".head-numbers").innerText(), /Lowest end so far/);
  assert.deepEqual(await violations(page), []);
  // By key and by number; what names nothing is the first.
  const base = page.url().split("?")[0];
  await page.goto(`${base}?at=face-frame.right.2`);
  await page.locator(".head-where").waitFor();
  assert.match(await where(page), /, right, cut at/);
  await page.goto(`${base}?at=4`);
  await page.locator(".head-where").waitFor();
  assert.match(await where(page), /^Section 4 of/);
  await page.goto(`${base}?at=%F0%9F%98%80.left.9999999999999999999999`);
  await page.locator(".head-where").waitFor();
  assert.match(await where(page), /^Section 1 of/);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("it turns to where a section is seen, unless a hand turned it, and stays on a section", async () => {
  const { page, context, seen } = await app.newPhone({ reducedMotion: "reduce" });
  await head(app, page, "?at=14");
  assert.match(await where(page), /, right, cut at/);
  assert.equal(await from(page), "From the back");
  // Stepping to where most is hidden turns it; the button at the end of the way keeps the focus.
  const press = (name) => page.getByRole("button", { name, exact: true }).press("Enter");
  await press("First");
  assert.match(await where(page), /^Section 1 of/);
  assert.match(await from(page), /^From the front/);
  assert.equal(await page.evaluate(() => document.activeElement.innerText), "First");
  assert.match(page.url(), /\?at=1$/);
  // By hand it stays within the step.
  await press("Last");
  await page.getByRole("button", { name: "Front", exact: true }).click();
  await press("Previous");
  assert.equal(await from(page), "From the front");
  assert.match(await page.getByLabel("What the lines mean").innerText(), /The hairline/);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("it runs by itself only where motion is welcome", async () => {
  const calm = await app.newPhone({ reducedMotion: "reduce" });
  await head(app, calm.page);
  assert.equal(await calm.page.getByRole("button", { name: "Play" }).count(), 0);
  assert.deepEqual(await violations(calm.page), []);
  await calm.context.close();
  const { page, context } = await app.newPhone();
  await head(app, page);
  await page.getByRole("button", { name: "Play" }).click();
  await page.getByText(/^Section 3 of/).waitFor({ timeout: 5000 });
  await page.getByRole("button", { name: "Pause" }).click();
  const stood = await where(page);
  await page.waitForTimeout(1200);
  assert.equal(await where(page), stood);
  await context.close();
});

test("everything that is pressed is 48 px", async () => {
  const { page, context } = await app.newPhone();
  await head(app, page);
  const small = await page.locator("main button, main select").evaluateAll((all) => all
    .map((own) => [own.innerText, own.getBoundingClientRect()])
    .filter(([, box]) => box.width < 47.5 || box.height < 47.5)
    .map(([text, box]) => `${text} ${box.width} ${box.height}`));
  assert.deepEqual(small, []);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  assert.ok(over <= 0, `${over} px too wide`);
  await context.close();
});
