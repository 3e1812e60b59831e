// The main job in a real browser: a head, a plan, half a walk, no network, the rest of it, the list.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { done, face, longer, newExample, offer, section, toChair, toPlan } from "./flow.mjs";
import { open, shot, start, violations, workerReady } from "./harness.mjs";

const PLAN = "soft-layers-face-frame";
let app;
before(async () => { app = await start(); });
after(() => app.close());

// What the native command says of the invented example's head.
async function nativeLengths() {
  const file = join(tmpdir(), `tautline-example-${process.pid}.json`);
  const head = { circumference: 54, ear_to_ear: 33, length: 18.5, breadth: 14.5 };
  await writeFile(file, JSON.stringify(head));
  const run = promisify(execFile)("cargo", ["run", "--quiet", "--release", "--locked", "--bin",
    "lengths", "--", "--plan", PLAN, "--head", file], { cwd: new URL("../..", import.meta.url) });
  return JSON.parse((await run).stdout);
}

const half = (cm) => Math.round(cm * 2) / 2;

test("plan, walk half-way, lose the network, reload, walk on, finish, find it", async () => {
  const rows = await nativeLengths();
  const { context, page, seen } = await app.newPhone();
  await newExample(app, page);
  await workerReady(page);
  await shot(page, "head");
  await toPlan(page);
  await shot(page, "plan");

  // The table holds what the native engine computes for this head.
  const cells = await page.getByRole("row").allInnerTexts();
  for (const row of rows.filter((r) => r.side === "left")) {
    const [short, long] = [half(row.short_cm), half(row.long_cm)];
    const shown = short === long ? `${long}` : `${short}–${long}`;
    assert.ok(cells.some((cell) => cell.split(/\s+/).includes(shown)), `${shown} is in the table`);
  }

  await page.getByRole("link", { name: "To the chair" }).click();
  await page.getByRole("heading", { name: "Before you cut" }).waitFor();
  await shot(page, "before");
  await page.getByRole("button", { name: "Start" }).click();
  assert.equal((await section(page)).count, rows.length);
  for (let i = 0; i < 10; i += 1) {
    const { place, number } = await section(page);
    assert.equal(number, half(rows[place - 1].long_cm), `section ${place}`);
    if (place === 5) await shot(page, "walk");
    await done(page);
  }
  // One that came out longer, and the walk is left in the middle of it.
  await longer(page);
  const left = await section(page);
  assert.equal(left.place, 11);
  const address = page.url();

  await app.stopServer();
  await page.close();
  const again = await context.newPage();
  await again.goto(address);
  await again.getByText("Section 11 of").waitFor();
  assert.deepEqual(await section(again), left);
  assert.equal(await again.getByLabel("Came out at").inputValue(), `${left.number + 0.5} cm`);
  await again.reload();
  assert.deepEqual(await section(again), left);

  while ((await again.getByRole("button", { name: /^Done/ }).count()) > 0) await done(again);
  await again.getByRole("table").waitFor();
  await shot(again, "end");
  const measured = again.getByRole("row").filter({ hasText: "measured" });
  assert.equal(await measured.count(), 1);
  assert.match(await measured.innerText(), /\+0\.5/);

  await again.getByRole("link", { name: "Your cuts" }).click();
  const listed = again.getByRole("link", { name: /Invented example.*Finished/s });
  await listed.waitFor();
  await shot(again, "list");
  await listed.click();
  await again.getByRole("heading", { name: "Planned and cut" }).waitFor();
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("another cut is chosen, fitted and walked; once begun it stays", async () => {
  const own = await start();
  const { page, seen } = await own.newPhone();
  await newExample(own, page);
  await toPlan(page);
  await page.getByRole("link", { name: "Choose another cut" }).click();
  await page.getByRole("heading", { level: 1, name: "Choose a cut" }).waitFor();
  assert.deepEqual(await violations(page), []);
  await offer(page, "Graduated bob").click();
  await page.getByRole("button", { name: "Take this cut" }).click();
  await page.getByRole("heading", { level: 1, name: "Graduated bob" }).waitFor();
  await page.getByText("More about this cut").click();
  await page.getByText("Mistakes").waitFor();
  assert.deepEqual(await violations(page), []);
  const choose = page.url().replace("/plan", "/choose");
  await toChair(page);
  await page.getByText(/^Falls to/).waitFor();
  await done(page);
  await page.goto(choose);
  await page.getByText("its plan stays").waitFor();
  assert.equal(await offer(page, "Graduated bob").count(), 0);
  assert.deepEqual(seen.errors, []);
  await own.close();
});

test("a practice head and a full back are kept", async () => {
  const own = await start();
  const { page, seen } = await own.newPhone();
  await newExample(own, page);
  await page.getByText("A practice head").click();
  await page.getByText("Full", { exact: true }).click();
  await page.reload();
  assert.ok(await page.getByRole("radio", { name: /A practice head$/ }).isChecked());
  assert.ok(await page.getByRole("radio", { name: /Full$/ }).isChecked());
  await page.getByText("±").first().waitFor();
  assert.deepEqual(seen.errors, []);
  await own.close();
});

test("the guide's real length moves the sections that follow it", async () => {
  const own = await start();
  const { page } = await own.newPhone();
  await newExample(own, page);
  await toPlan(page);
  await toChair(page);
  const guide = [];
  for (let i = 0; i < 2; i += 1) {
    const { number } = await section(page);
    guide.push(number);
    await face(page, "Result");
    await page.getByLabel("Came out at").fill(`${number - 2} cm`);
    await page.getByLabel("Came out at").press("Enter");
    await page.getByRole("button", { name: "Take it back" }).waitFor();
    await done(page);
  }
  const rows = await nativeLengths();
  const shorter = (await section(page)).number;
  const planned = half(rows[2].long_cm);
  assert.ok(shorter <= planned - 1 && shorter >= planned - 3, `${shorter} for ${planned}`);
  await own.close();
});

test("what is typed stays, is read, and is refused with a sentence", async () => {
  const own = await start();
  const { page } = await own.newPhone();
  await newExample(own, page);
  const around = page.getByLabel("Around the head");
  await around.fill("as wide as it gets");
  await around.press("Tab");
  await page.getByText("is not a length").waitFor();
  await page.reload();
  assert.equal(await around.inputValue(), "as wide as it gets");
  assert.equal(await around.getAttribute("aria-invalid"), "true");
  await around.fill("22 1/2");
  await around.press("Tab");
  assert.equal(await around.inputValue(), "22 1/2 cm");
  await page.getByText("Measure again").waitFor();
  await page.getByLabel("Inches").check();
  await around.fill("22 1/2");
  await around.press("Tab");
  assert.equal(await around.inputValue(), "22 1/2 in");
  assert.equal(await page.getByText("Measure again").count(), 0);
  await toPlan(page);
  // An answer to the plan stays as well, whatever it begins with.
  const everywhere = page.getByLabel("Or one length everywhere, as on a practice head");
  await everywhere.fill("about so long");
  await everywhere.press("Tab");
  const refused = page.locator(".fault").filter({ hasText: "about so long" });
  await refused.waitFor();
  assert.equal(await everywhere.inputValue(), "about so long");
  await everywhere.fill("12 in");
  await everywhere.press("Tab");
  await refused.waitFor({ state: "detached" });
  const off = page.getByLabel("How much comes off the back?");
  assert.equal(await off.inputValue(), "1 5/8 in");
  await off.fill("40 in");
  await off.press("Tab");
  await page.getByText("must lie between").waitFor();
  assert.equal(await off.inputValue(), "40 in");
  await own.close();
});

test("damaged and newer records are set aside, and no stored text can blank a screen", async () => {
  const own = await start();
  const { page } = await own.newPhone();
  await newExample(own, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await page.evaluate(() => {
    const put = (key, text) => localStorage.setItem(`tautline.${key}`, text);
    put("cut.broken.1", "{\"schema\":1,<b>");
    put("cut.newer.3", "{\"schema\":99}");
    put("settings", "]");
    put("index", "not an index");
  });
  await open(own, page, "/");
  await page.getByText("damaged and can't be opened").waitFor();
  await page.getByText("saved by a newer Tautline").waitFor();
  await page.getByRole("link", { name: /Invented example/ }).waitFor();
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("link", { name: "Save as a file" }).first().click(),
  ]);
  assert.match(file.suggestedFilename(), /^tautline-/);
  for (const path of ["/cut/broken/plan", "/cut/none/walk", "/cut/newer/head", "/nowhere"]) {
    await open(own, page, path);
    await page.getByRole("link", { name: "Your cuts" }).waitFor();
  }
  // A record that reads but holds odd values.
  await page.evaluate((key) => {
    const own = Object.keys(localStorage).find((k) => k.startsWith(`tautline.cut.${key}.`));
    const cut = JSON.parse(localStorage.getItem(own));
    cut.choices = { landmark: "nose", off: "-4", colour: "red" };
    cut.walk = { started_at: "", at: { step: "gone", side: "left", number: 99 } };
    cut.tapes = { circumference: "1e999", breadth: "21" };
    cut.saved_at = "yesterday";
    localStorage.setItem(own, JSON.stringify(cut));
  }, id);
  for (const path of ["head", "plan", "walk", "end"]) {
    await open(own, page, `/cut/${id}/${path}`);
    await page.waitForTimeout(50);
    assert.equal(await page.locator("#stopped").count(), 0, path);
  }
  await open(own, page, "/");
  await page.getByText("some day").waitFor();
  await own.close();
});

test("storage that is full or switched off is said plainly and nothing is lost", async () => {
  const own = await start();
  const { page, context } = await own.newPhone();
  await newExample(own, page);
  const address = page.url();
  await page.evaluate(() => {
    let size = 1 << 20;
    for (let i = 0; size > 0; i += 1) {
      try { localStorage.setItem(`fill${i}`, "x".repeat(size)); } catch { size >>= 1; }
    }
  });
  await page.getByLabel("Name of this cut").fill("A name that no longer fits anywhere at all");
  await page.getByLabel("Name of this cut").press("Tab");
  await page.getByRole("alert").filter({ hasText: "no room left" }).waitFor();
  await page.evaluate(() => {
    for (const key of Object.keys(localStorage)) if (key.startsWith("fill")) localStorage.removeItem(key);
  });
  await page.getByLabel("Name of this cut").fill("It fits again");
  await page.getByLabel("Name of this cut").press("Tab");
  await page.reload();
  assert.equal(await page.getByLabel("Name of this cut").inputValue(), "It fits again");

  const off = await context.newPage();
  await off.addInitScript(() => {
    Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });
  });
  await off.goto(address);
  await off.getByText("keeps nothing for Tautline").first().waitFor();
  await off.goto(own.url);
  await off.getByText("keeps nothing for Tautline").first().waitFor();
  await own.close();
});

test("every screen passes axe, light and dark, and never scrolls sideways at 320 px", async () => {
  for (const colorScheme of ["light", "dark"]) {
    const own = await start();
    const { page, seen } = await own.newPhone({ colorScheme, viewport: { width: 320, height: 568 } });
    const look = async (name) => {
      assert.deepEqual(await violations(page), [], `${name}, ${colorScheme}`);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(wide <= 320, `${name} is ${wide} px wide`);
    };
    await open(own, page, "/");
    await look("empty list");
    await newExample(own, page);
    await look("head");
    await toPlan(page);
    await look("plan");
    await page.getByLabel("Client's left").check();
    await look("plan with a side parting");
    await page.getByRole("link", { name: "To the chair" }).click();
    await page.getByRole("button", { name: "Start" }).waitFor();
    await look("before");
    await page.getByRole("button", { name: "Start" }).click();
    await look("walk");
    while ((await page.getByRole("button", { name: /^Done/ }).count()) > 0) await done(page);
    await look("end");
    await open(own, page, "/");
    await look("list");
    await open(own, page, "/nowhere");
    await look("nowhere");
    assert.deepEqual(seen.errors, []);
    await own.close();
  }
});

test("the whole job can be done with the keyboard, and nothing pressed is under 48 px", async () => {
  const own = await start();
  const { page } = await own.newPhone();
  await open(own, page, "/");
  const press = async (role, name, key = "Enter") => {
    await page.getByRole(role, { name }).waitFor();
    for (let i = 0; i < 60; i += 1) {
      await page.keyboard.press("Tab");
      const there = await page.getByRole(role, { name }).evaluate((e) => e === document.activeElement);
      if (there) return page.keyboard.press(key);
    }
    throw new Error(`${name} is not reached with Tab`);
  };
  await press("button", "Try an invented example");
  await press("link", "On to the plan");
  await press("radio", "Mouth corner", "ArrowRight");
  await page.getByRole("radio", { name: "Jaw corner", checked: true }).waitFor();
  await press("link", "To the chair");
  await press("button", "Start", " ");
  await page.getByText(/^Section 1 of/).waitFor();
  await press("button", /^Done/);
  // The button keeps the focus, so Enter goes on.
  await page.getByText(/^Section 2 of/).waitFor();
  for (let i = 3; i <= 22; i += 1) {
    await page.keyboard.press("Enter");
    await page.getByText(`Section ${i} of`).waitFor();
    const small = await page.$$eval("button, a[href], input", (all) => all
      .map((e) => [e.textContent || e.id, e.getBoundingClientRect()])
      .filter(([, box]) => box.height > 0 && (box.height < 48 || box.width < 48))
      .map(([name, box]) => `${name} ${box.width} × ${box.height}`));
    assert.deepEqual(small, []);
  }
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Planned and cut" }).waitFor();
  await own.close();
});
