// The main flow by keys alone, from the address bar: Tab, Shift+Tab, Enter, Space, arrows, Escape, and
// what is typed. No pointer anywhere.
//
//   byKeys(app)   → { presses, places }: how many keys it took, and where the focus went after each
//                 change of screen; throws where something is not reached, or the focus is lost
import assert from "node:assert/strict";
import { open } from "../../harness.mjs";

const MOST = 250;

export async function byKeys(app) {
  const { context, page, seen } = await app.newPhone({ viewport: { width: 1280, height: 800 }, isMobile: false, hasTouch: false });
  page.setDefaultTimeout(15_000);
  // A pointer anywhere is a fault of this test.
  await page.addInitScript(() => {
    addEventListener("pointerdown", () => { globalThis.pointed = true; }, true);
  });
  let presses = 0;
  const places = [];
  const key = async (name) => {
    presses += 1;
    await page.keyboard.press(name);
  };
  const focused = (wanted) => wanted.evaluateAll((all) => all.includes(document.activeElement));
  const to = async (role, name, way = "Tab") => {
    const wanted = page.getByRole(role, { name });
    await wanted.first().waitFor();
    for (let i = 0; i < MOST; i += 1) {
      if (await focused(wanted)) return;
      await key(way);
    }
    throw new Error(`${role} ${name} is not reached with ${way}`);
  };
  const press = async (role, name, { by = "Enter", way } = {}) => {
    await to(role, name, way);
    await key(by);
  };
  const typed = async (name, text) => {
    await to("textbox", name);
    await page.keyboard.press("Control+a");
    await page.keyboard.type(text);
    presses += text.length + 1;
    await key("Enter");
  };
  // After a change of screen the focus is on its heading, or on what stands in the place of what was pressed.
  const arrived = async (name, where = "H1") => {
    await page.getByRole("heading", { level: 1, name }).waitFor();
    const tag = () => page.evaluate(() => document.activeElement.tagName);
    for (let i = 0; i < 20 && (await tag()) !== where; i += 1) await page.waitForTimeout(50);
    places.push(`${name}: ${await tag()}`);
    assert.equal(await tag(), where, `the focus after coming to ${name}`);
  };
  const kept = async (what) => {
    await page.waitForTimeout(120);
    const at = await page.evaluate(() => `${document.activeElement.tagName} ${document.activeElement.textContent.slice(0, 30)}`);
    places.push(`${what}: ${at}`);
    assert.doesNotMatch(at, /^(BODY|HTML)/, `the focus after ${what}`);
  };

  await open(app, page, "/");
  await press("button", "Try an invented example");
  await arrived("The head");
  await typed("Around the head", "56");
  await press("link", "Talk it over first");
  await arrived("The client");
  // What is folded away opens with a key, and closes with it.
  const hair = page.locator("summary", { hasText: "The hair" });
  for (let i = 0; i < MOST && !(await focused(hair)); i += 1) await key("Tab");
  await key(" ");
  assert.ok(await hair.evaluate((e) => e.parentElement.open));
  await key("Enter");
  assert.ok(!(await hair.evaluate((e) => e.parentElement.open)));
  await press("link", "On to the plan");
  await arrived("Soft layers with a face frame");
  await press("link", "Pictures");
  await arrived("Pictures");
  await press("link", "Outline");
  await page.getByText("Laid against").waitFor();
  await kept("another picture");
  // Radios by arrows.
  await to("radio", "Left");
  await key("ArrowRight");
  assert.ok(await page.getByRole("radio", { name: "Right", exact: true }).isChecked());
  await press("link", "Back to the plan");
  await arrived("Soft layers with a face frame");
  await press("link", "Choose another cut");
  await arrived("Choose a cut");
  await press("link", "Plan", { way: "Shift+Tab" });
  await arrived("Soft layers with a face frame");
  await press("link", "Change it");
  await arrived("Change the plan");
  await press("link", "Plan", { way: "Shift+Tab" });
  await arrived("Soft layers with a face frame");
  await press("link", "To the chair");
  await arrived("Before you cut");
  await press("button", "Start");
  await page.getByText(/^Section 1 of/).waitFor();
  await kept("the start");
  const count = Number(/of (\d+)/.exec(await page.locator(".progress").innerText())[1]);
  await press("button", "Pause");
  await page.getByRole("heading", { name: "Paused" }).waitFor();
  await kept("a pause");
  await press("button", "Go on", { by: " " });
  await page.getByText(/^Section 1 of/).waitFor();
  await kept("going on");
  await press("button", "Overview");
  await page.getByRole("heading", { name: "The whole cut" }).waitFor();
  await kept("the overview");
  await key("Escape");
  await page.getByRole("button", { name: /^Done/ }).waitFor();
  await kept("Escape out of the overview");
  await press("button", /^Done/);
  await page.getByText("Section 2 of").waitFor();
  await kept("Done");
  await press("button", /Longer/);
  await page.getByRole("button", { name: "Take it back" }).waitFor();
  await kept("it came out longer");
  await press("button", /^Done/);
  await page.getByText("Section 3 of").waitFor();
  await press("button", "Back", { way: "Shift+Tab" });
  await page.getByText("Section 2 of").waitFor();
  await kept("Back");
  await press("button", /^Done/);
  for (let place = 3; place < count; place += 1) {
    await page.getByText(`Section ${place} of`).waitFor();
    await press("button", /^Done/);
  }
  await page.getByText(`Section ${count} of`).waitFor();
  await press("button", "Done, finish");
  await arrived("Planned and cut");
  await press("link", "Visit", { way: "Shift+Tab" });
  await arrived("Visit");
  await press("link", "Book", { way: "Shift+Tab" });
  await arrived("The book");
  await to("textbox", "Name or initials");
  await page.keyboard.type("M. T.");
  await key("Enter");
  await arrived("M. T.");
  await press("button", "Delete this card and its visits");
  await page.getByRole("button", { name: "Keep all of it" }).waitFor();
  await kept("asking whether to delete");
  await key("Escape");
  await page.getByRole("button", { name: "Delete this card and its visits" }).waitFor();
  await kept("Escape out of the question");
  await press("link", "Settings", { way: "Shift+Tab" });
  await arrived("Settings");
  await press("link", /^Everything out and back/);
  await arrived("Everything out and back");
  const download = page.waitForEvent("download");
  await press("button", "Save everything as a file");
  await download;
  await press("link", "Tautline", { way: "Shift+Tab" });
  await arrived("Your cuts");
  await press("button", /^Delete/);
  await page.getByRole("button", { name: "Delete for good" }).waitFor();
  await kept("asking whether to delete a cut");
  await key("Escape");
  await page.getByRole("button", { name: "Delete for good" }).waitFor({ state: "detached" });
  await kept("Escape out of that");
  // Back in the history, too.
  await page.goBack();
  await arrived("Everything out and back");
  assert.equal(await page.evaluate(() => globalThis.pointed ?? false), false);
  assert.deepEqual(seen.errors, []);
  await context.close();
  return { presses, places };
}
