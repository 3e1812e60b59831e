// The client's screen: answered by taps and by keyboard, kept, and what it changes at the chair.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { done, face, newExample, toChair } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

async function toClient(page) {
  await newExample(app, page);
  await page.getByRole("link", { name: "Talk it over first" }).click();
  await page.getByRole("heading", { level: 1, name: "The client" }).waitFor();
}

const toPlan = async (page) => {
  await page.getByRole("link", { name: "On to the plan", exact: true }).click();
  await page.getByRole("table").waitFor();
};

const group = (page, name) => page.locator("summary").filter({ hasText: name });

async function openAll(page) {
  for (const name of ["The hair", "How it grows", "Left longer", "Face and", "Private note"]) {
    await group(page, name).click();
  }
}

// A chosen answer has a tick before its words.
const radio = (page, question, answer) =>
  page.getByRole("group", { name: question }).getByRole("radio", { name: new RegExp(`${answer}$`) });

test("it may be skipped, and then changes nothing", async () => {
  const { context, page, seen } = await app.newPhone();
  await newExample(app, page);
  await page.getByRole("link", { name: "On to the plan" }).click();
  await page.getByRole("table").waitFor();
  const plain = await page.getByRole("table").innerText();
  await page.getByRole("link", { name: "Client" }).click();
  // The most important questions stand on the first screen.
  const last = await page.getByLabel("No hair shorter than").boundingBox();
  assert.ok(last.y + last.height < 740, `the shortest ends at ${last.y + last.height}`);
  await page.getByRole("link", { name: "On to the plan" }).click();
  await page.getByRole("table").waitFor();
  assert.equal(await page.getByRole("table").innerText(), plain);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("answers by taps: kept, taken back, and seen in every target", async () => {
  const { context, page, seen } = await app.newPhone();
  await toClient(page);
  await page.getByLabel("Front: should end at").selectOption({ label: "Brow" });
  await page.getByLabel("Front: never shorter than").selectOption({ label: "Chin" });
  await page.getByText(/Settle which of the two counts/).waitFor();
  await page.getByLabel("No hair shorter than").fill("60");
  await page.getByLabel("No hair shorter than").press("Tab");
  await openAll(page);
  await radio(page, "It grows", "Curly").click();
  await page.getByText("Estimated from the curl").waitFor();
  await radio(page, "Parting worn", "Client's left").click();
  await radio(page, "Face", "Round").click();
  await radio(page, "Face", "Round").click();
  assert.equal(await radio(page, "Face", "Round").isChecked(), false);
  await radio(page, "Face", "Oval").click();
  await radio(page, "Leave it longer over the ears", "Yes").click();
  await page.getByLabel("Over the ears longer by").fill("1");
  await page.getByLabel("Over the ears longer by").press("Tab");
  await radio(page, "Cut the fringe in two goes", "Yes").click();
  await page.locator("#note").fill("Likes it “quiet” & plain");
  // A tap near the upper edge of the map: the front.
  const map = page.locator(".growth-map");
  await map.scrollIntoViewIfNeeded();
  const box = await map.boundingBox();
  await page.mouse.click(box.x + box.width / 2, box.y + box.height * 0.1);
  await page.getByText(/^Cowlick, front hairline/).waitFor();
  await shot(page, "client");

  await page.reload();
  await openAll(page);
  assert.equal(await page.getByLabel("Front: should end at").inputValue(), "brow");
  assert.equal(await page.getByLabel("No hair shorter than").inputValue(), "60 cm");
  assert.ok(await radio(page, "It grows", "Curly").isChecked());
  assert.ok(await radio(page, "Face", "Oval").isChecked());
  assert.equal(await page.getByLabel("Over the ears longer by").inputValue(), "1 cm");
  assert.equal(await page.locator("#note").inputValue(), "Likes it “quiet” & plain");
  await page.getByText(/^Cowlick, front hairline/).waitFor();

  await toPlan(page);
  const text = await page.locator("main").innerText();
  assert.match(text, /promised to reach the chin/);
  assert.match(text, /shorter than agreed/);
  assert.match(text, /left on for the cowlick/);
  assert.match(text, /left on for the ear/);
  assert.match(text, /Front guide, first go/);
  assert.ok(await page.getByRole("radio", { name: /Client's left$/ }).isChecked());
  await toChair(page);
  await page.getByText(/estimated from the curl: measure one lock/).waitFor();
  await face(page, "How");
  await page.getByText(/left on for the cowlick/).waitFor();
  assert.equal(await page.getByText("quiet").count(), 0);
  await shot(page, "client-chair");
  await done(page);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("answers by keyboard alone, a mark by the name of its place", async () => {
  const { context, page, seen } = await app.newPhone();
  await toClient(page);
  await page.getByLabel("Back: never shorter than").focus();
  await page.keyboard.press("ArrowDown");
  assert.equal(await page.getByLabel("Back: never shorter than").inputValue(), "brow");
  await group(page, "The hair").focus();
  await page.keyboard.press("Enter");
  await page.getByRole("group", { name: "It grows" }).getByRole("radio").first().focus();
  await page.keyboard.press("Space");
  assert.ok(await radio(page, "It grows", "Straight").isChecked());
  await page.keyboard.press("ArrowRight");
  assert.ok(await radio(page, "It grows", "Wavy").isChecked());
  await page.keyboard.press("Space");
  assert.equal(await radio(page, "It grows", "Wavy").isChecked(), false);
  await group(page, "How it grows").focus();
  await page.keyboard.press("Enter");
  await radio(page, "What grows there", "Whorl, clockwise").focus();
  await page.keyboard.press("Space");
  await page.getByLabel("Place", { exact: true }).focus();
  await page.keyboard.type("Crown, m");
  await page.getByRole("button", { name: "Mark it" }).focus();
  await page.keyboard.press("Enter");
  await page.getByText("Marked: Whorl, clockwise, crown, middle.").waitFor();
  const remove = page.getByRole("button", { name: /^Remove\s+Whorl, clockwise, crown, middle$/ });
  await remove.focus();
  await page.keyboard.press("Enter");
  await page.getByText("Taken off.").waitFor();
  assert.equal(await remove.count(), 0);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Mark it");
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("what does not read stays, with a sentence, and the plan goes on", async () => {
  const { context, page, seen } = await app.newPhone();
  await toClient(page);
  await openAll(page);
  const field = page.getByLabel("No hair shorter than");
  await field.fill("about so");
  await field.press("Tab");
  await page.getByText(/“about so” is not a length/).waitFor();
  await page.locator("#lock_hangs").fill("30");
  await page.locator("#lock_combed").fill("24");
  await page.locator("#lock_combed").press("Tab");
  await page.getByText(/Measure again/).waitFor();
  await page.reload();
  await openAll(page);
  assert.equal(await field.inputValue(), "about so");
  assert.equal(await page.locator("#lock_combed").inputValue(), "24 cm");
  await page.locator("#lock_combed").fill("40");
  await page.locator("#lock_combed").press("Tab");
  await page.getByText(/^It hangs at 75 %/).waitFor();
  await toPlan(page);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

for (const colorScheme of ["light", "dark"]) {
  test(`it is accessible and fits at 320 pixels, ${colorScheme}`, async () => {
    const { context, page } = await app.newPhone({ colorScheme, viewport: { width: 320, height: 640 } });
    await toClient(page);
    await page.getByLabel("Front: should end at").selectOption({ label: "Mouth corner" });
    await openAll(page);
    await page.locator("summary").filter({ hasText: "More locks" }).click();
    await radio(page, "It grows", "Coily").click();
    await radio(page, "Leave it longer over the ears", "Yes").click();
    await page.getByRole("button", { name: "Mark it" }).click();
    await page.getByText(/^Marked/).waitFor();
    assert.deepEqual(await violations(page), []);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    assert.ok(wide <= 320, `${wide} px wide`);
    const small = await page.evaluate(() => [...document.querySelectorAll("main button, main select, main summary, main .options label, main a")]
      .map((e) => [e.textContent.trim().slice(0, 20), e.getBoundingClientRect().height])
      .filter(([, height]) => height > 0 && height < 47.5));
    assert.deepEqual(small, []);
    await shot(page, `client-320-${colorScheme}`);
    await context.close();
  });
}
