// The ideas: a slider moves the picture, the numbers and the sentence.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { open, start, violations, worked } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

test("each idea moves with its slider, in numbers too", async () => {
  const { context, page, seen } = await app.newPhone();
  await open(app, page, "/");
  await page.getByRole("link", { name: /^Learn what lengths follow from/ }).click();
  for (const [idea, keys, longer] of [["Elevation", "Home", "End"], ["Over-direction", "End", "Home"], ["Guide", "End", "Home"], ["Weight", "Home", "End"]]) {
    await page.getByRole("navigation", { name: "Ideas" }).getByRole("link", { name: idea }).click();
    await page.getByRole("heading", { level: 1, name: idea }).waitFor();
    await worked(page);
    const slider = page.getByRole("slider");
    const told = async (key) => {
      await slider.press(key);
      const longest = await page.locator("tbody tr:last-child td:last-child").innerText();
      return { longest: Number(longest), said: await page.locator("main [role=status]").last().innerText(), picture: await page.locator("figure svg").innerHTML() };
    };
    const [one, other] = [await told(keys), await told(longer)];
    assert.notEqual(one.picture, other.picture, idea);
    assert.notEqual(one.said, other.said, idea);
    if (idea !== "Guide") assert.ok(one.longest > other.longest, `${idea}: ${one.longest}, ${other.longest}`);
    assert.deepEqual(await violations(page), []);
  }
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a word leads to what it means, and back to where one was", async () => {
  const { context, page, seen } = await app.newPhone();
  await open(app, page, "/learn/nothing");
  await page.getByRole("heading", { level: 1, name: "Elevation" }).waitFor();
  await open(app, page, "/");
  await page.getByRole("button", { name: "Try an invented example" }).click();
  await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
  const edit = page.url().replace("/head", "/edit");
  await page.goto(edit);
  await page.locator(".steps button").nth(1).click();
  await page.getByRole("link", { name: "What is over-direction?" }).click();
  await page.getByRole("heading", { level: 1, name: "Over-direction" }).waitFor();
  // By way of another idea, and back to the very screen that was left.
  await page.getByRole("navigation", { name: "Ideas" }).getByRole("link", { name: "Weight" }).click();
  await page.getByRole("link", { name: "Back to where you were" }).click();
  await page.getByRole("link", { name: "What is a guide?" }).first().waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});
