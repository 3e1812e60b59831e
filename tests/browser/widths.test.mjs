// No screen of a cut scrolls sideways: on the narrowest phones in either unit, and with names that are one
// long word. Large letters and wide spacing: trust/access.mjs.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { atChair, done, longer } from "./flow.mjs";
import { open, start } from "./harness.mjs";

let app;
before(async () => { app = await start(); });
after(() => app.close());

const SCREENS = [
  "head", "client", "plan", "edit", "aim", "compare", "sheet", "end",
  "see/head", "see/outline", "see/lengths", "see/scalp", "pass", "/keep", "/take",
];
const LONG = "Nobreak".repeat(15);

// A cut of which two sections are done; → its id.
async function begun(page) {
  await atChair(app, page);
  await longer(page);
  await done(page);
  await done(page);
  return page.url().split("/cut/")[1].split("/")[0];
}

// The screens that are wider than the window, each with what stands out of it most.
async function wide(page, id) {
  const found = [];
  for (const screen of SCREENS) {
    await open(app, page, screen.startsWith("/") ? screen : `/cut/${id}/${screen}`);
    await page.locator("main svg, main table, main input, main .actions").first().waitFor({ state: "attached" });
    const said = await page.evaluate(() => {
      const root = document.documentElement;
      if (root.scrollWidth <= root.clientWidth) return "";
      const out = [...document.querySelectorAll("main *")]
        .map((e) => ({ e, right: e.getBoundingClientRect().right }))
        .filter(({ right }) => right > root.clientWidth + 1)
        .sort((a, b) => b.right - a.right || b.e.innerHTML.length - a.e.innerHTML.length)
        .slice(0, 3)
        .map(({ e, right }) => `${e.tagName}.${e.getAttribute("class")} “${e.textContent.slice(0, 20)}” ${Math.round(right)}`);
      return `${root.scrollWidth} of ${root.clientWidth}: ${out.join(" | ")}`;
    });
    if (said) found.push(`${screen}: ${said}`);
  }
  return found;
}

// Names that people give, each a single long word, put into what is kept.
const renamed = (page, name) => page.evaluate((name) => {
  const keys = Object.keys(localStorage).filter((key) => key.startsWith("tautline.cut."));
  for (const key of keys) {
    const cut = JSON.parse(localStorage[key]);
    cut.title = name;
    if (cut.own) {
      cut.own.name = name;
      for (const step of cut.own.steps) {
        step.title = name;
        for (const section of step.sections ?? []) if (section.name) section.name = name;
      }
    }
    localStorage[key] = JSON.stringify(cut);
  }
}, name);

test("nothing is wider than the narrowest phone, in inches", { timeout: 120_000 }, async () => {
  const { context, page, seen } = await app.newPhone({ viewport: { width: 320, height: 640 } });
  const id = await begun(page);
  await open(app, page, "/settings");
  await page.getByText(/^Inches/).click();
  await page.waitForTimeout(300);
  assert.deepEqual(await wide(page, id), []);
  assert.deepEqual(seen.errors, []);
  await context.close();
});

test("a name may be one long word", { timeout: 120_000 }, async () => {
  const { context, page } = await app.newPhone();
  const id = await begun(page);
  // A plan of one's own has names of one's own.
  await open(app, page, `/cut/${id}/edit`);
  await page.locator("#plan-name").fill(LONG);
  await page.locator("#plan-name").press("Enter");
  await page.waitForTimeout(300);
  await renamed(page, LONG);
  await open(app, page, `/cut/${id}/plan`);
  assert.match(await page.locator("main").innerText(), new RegExp(LONG));
  assert.deepEqual(await wide(page, id), []);
  await context.close();
});
