// The lock: it asks at the start and after five minutes out of sight, shows nothing meanwhile, and leaves
// a cut at the chair alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { newExample, toChair } from "./flow.mjs";
import { open, shot, start, violations } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

async function lockedPhone(options) {
  const phone = await app.newPhone(options);
  const { page } = phone;
  // A clock of its own, so that five minutes go by at once.
  await page.addInitScript(() => {
    const real = Date.now.bind(Date);
    globalThis.later = Number(sessionStorage.getItem("later") ?? 0);
    Date.now = () => real() + globalThis.later;
  });
  await newExample(app, page);
  await open(app, page, "/keep");
  await page.getByLabel("A PIN of 4 to 12 digits").fill("12a4");
  await page.getByRole("button", { name: "Switch the lock on" }).click();
  await page.getByText("A PIN has 4 to 12 digits").waitFor();
  await page.getByLabel("A PIN of 4 to 12 digits").fill("2580");
  await page.getByRole("button", { name: "Switch the lock on" }).click();
  await page.getByText("The lock is on").waitFor();
  return phone;
}

async function unlock(page, pin) {
  await page.getByLabel("PIN", { exact: true }).fill(pin);
  await page.getByRole("button", { name: "Open", exact: true }).click();
}

async function outOfSight(page, minutes) {
  await page.evaluate((ms) => {
    const seen = (state) => {
      Object.defineProperty(document, "hidden", { value: state, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
      window.dispatchEvent(new Event("visibilitychange"));
    };
    seen(true);
    globalThis.later += ms;
    seen(false);
  }, minutes * 60_000);
}

const isLocked = (page) => page.getByRole("heading", { name: "Tautline is locked" }).count();

for (const colorScheme of ["light", "dark"]) {
  test(`it asks at the start, shows nothing of what is kept, and opens with its PIN, ${colorScheme}`, async () => {
    const { context, page, seen } = await lockedPhone({ colorScheme });
    await open(app, page, "/");
    await page.getByRole("heading", { name: "Tautline is locked" }).waitFor();
    await shot(page, `lock_${colorScheme}`);
    assert.deepEqual(await violations(page), []);
    assert.equal(await page.title(), "Locked · Tautline");
    assert.ok(!/xample|layers/i.test(await page.evaluate(() => document.body.innerHTML)));
    await unlock(page, "2581");
    await page.getByText("That is not the PIN").waitFor();
    await unlock(page, "2580");
    await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
    assert.deepEqual(seen.errors, []);
    await context.close();
  });
}

test("out of sight it asks after five minutes, but not at the chair", async () => {
  const { context, page, seen } = await lockedPhone();
  await outOfSight(page, 4);
  assert.equal(await isLocked(page), 0);
  await outOfSight(page, 5.1);
  await page.getByRole("heading", { name: "Tautline is locked" }).waitFor();
  await unlock(page, "2580");
  await page.getByRole("heading", { level: 1, name: "Everything out and back" }).waitFor();
  await page.getByRole("link", { name: "Tautline" }).click();
  await page.locator(".cuts .open").first().click();
  await toChair(page);
  await outOfSight(page, 60);
  assert.equal(await isLocked(page), 0);
  await page.getByText(/^Section 1 of/).waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("wrong tries wait, and a forgotten PIN comes off after a day", async () => {
  const { context, page, seen } = await lockedPhone();
  await open(app, page, "/");
  for (let i = 0; i < 3; i += 1) {
    await unlock(page, `000${i}`);
    await page.getByText("That is not the PIN").waitFor();
  }
  await unlock(page, "2580");
  await page.getByText(/Try again in \d+ seconds/).waitFor();
  await page.getByText("I forgot it").click();
  await page.getByRole("button", { name: "Ask for the lock to be taken off" }).click();
  await page.getByText("in about 24 hours").waitFor();
  assert.deepEqual(await violations(page), []);
  await page.evaluate(() => sessionStorage.setItem("later", String(86_500_000)));
  await page.reload();
  await page.getByText("I forgot it").click();
  await page.getByRole("button", { name: "Take the lock off now" }).click();
  await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
  await page.reload();
  await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
  await page.locator(".cuts li").first().waitFor();
  assert.equal(await page.locator(".cuts li").count(), 1);
  assert.deepEqual(seen.errors, []);
  await context.close();
});
