// Killed at any moment, and cleared by the browser: one of the two places is enough.
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";
import { open, start } from "../../harness.mjs";
import { TYPED, day, missing } from "./day.mjs";
import { chance, documents, follow, kept, settled, sound } from "./faults.mjs";

const HERE = fileURLToPath(new URL("../..", import.meta.url));

// Runs the test that kills a whole browser; its own line tells the figure.
async function killed(full) {
  const kills = full ? 60 : 3;
  const env = { ...process.env, KILLS: String(kills), SEED: "5" };
  // Else it would take itself for a part of the test that may have called this.
  delete env.NODE_TEST_CONTEXT;
  const child = spawn(process.execPath, ["--test", "--test-reporter=tap", "--test-timeout=900000", "kill.test.mjs"], { cwd: HERE, env });
  let said = "";
  child.stdout.on("data", (data) => { said += data; });
  const code = await new Promise((ended) => child.once("exit", ended));
  const [, well, of] = /(\d+) of (\d+) kills lost nothing/.exec(said) ?? [];
  return {
    tries: Number(of ?? kills),
    figure: well === undefined ? said.slice(-300) : `${well} of ${of} lost nothing`,
    well: code === 0 && well === of && Number(of) === kills,
  };
}

const withoutJournal = (page) => page.evaluate(() => new Promise((done) => {
  const asked = indexedDB.deleteDatabase("tautline");
  for (const name of ["onsuccess", "onerror", "onblocked"]) asked[name] = () => done(name);
}));

// A page of the same origin where the app does not run.
async function beside(app, page) {
  await page.route("**/favicon.ico", (route) => route.fulfill({ status: 204 }));
  await page.goto(`${app.url}/manifest.webmanifest`);
}

const CASES = {
  async "local storage cleared, the journal stays"(app, page) {
    await beside(app, page);
    await page.evaluate(() => localStorage.clear());
  },
  async "the journal cleared, local storage stays"(app, page) {
    await beside(app, page);
    await withoutJournal(page);
  },
  async "local storage cleared while the app is open"(app, page) {
    await page.evaluate(() => localStorage.clear());
  },
  async "some documents cleared"(app, page, dice) {
    await beside(app, page);
    await page.evaluate((which) => {
      const all = Object.keys(localStorage).filter((key) => /^tautline\.(cut|record|line)\./.test(key)).sort();
      all.filter((_, i) => which >> i & 1).forEach((key) => localStorage.removeItem(key));
    }, 1 + dice.below(30));
  },
  async "the indexes cleared"(app, page) {
    await beside(app, page);
    await page.evaluate(() => ["tautline.index", "tautline.records"].forEach((key) => localStorage.removeItem(key)));
  },
};

async function cleared(full) {
  const app = await start();
  const dice = chance(41);
  const wrong = [];
  let tries = 0;
  try {
    for (const [name, clear] of Object.entries(CASES).slice(0, full ? undefined : 2)) {
      for (let time = 0; time < (full ? 3 : 1); time += 1) {
        tries += 1;
        const { context, page, seen } = await app.newPhone();
        page.setDefaultTimeout(10_000);
        try {
          await open(app, page, "/");
          const made = await day(page);
          await page.waitForTimeout(300);
          await clear(app, page, dice);
          await open(app, page, "/");
          await page.locator(".cuts > li").nth(1).waitFor();
          let texts = await kept(page);
          const lacks = [...missing(texts, made), ...sound(texts)];
          // It goes on: what is kept from now on stands in both places again.
          await follow(page, `/cut/${made.cut}/head`);
          await page.getByLabel("Name of this cut").fill("After all that");
          await page.getByLabel("Name of this cut").press("Tab");
          await settled(page);
          await page.waitForTimeout(300);
          await beside(app, page);
          await page.evaluate(() => localStorage.clear());
          await open(app, page, "/");
          await page.locator(".cuts .title").getByText("After all that").waitFor().catch(() => lacks.push("not in the journal afterwards"));
          texts = await kept(page);
          lacks.push(...sound(texts), ...seen.errors);
          wrong.push(...lacks.map((what) => `${name}: ${what}`));
        } catch (error) {
          wrong.push(`${name}: ${String(error).replaceAll(/\s+/g, " ").slice(0, 200)}`);
        }
        await context.close();
      }
    }
    // Both: a fresh app, and no error.
    tries += 1;
    const { context, page, seen } = await app.newPhone();
    await open(app, page, "/");
    await day(page);
    await beside(app, page);
    await page.evaluate(() => localStorage.clear());
    await withoutJournal(page);
    await open(app, page, "/");
    await page.getByRole("button", { name: "Try an invented example" }).waitFor();
    wrong.push(...seen.errors);
    await context.close();
  } finally {
    await app.close();
  }
  return { tries, figure: wrong.length === 0 ? `${tries} of ${tries}` : wrong.slice(0, 4).join("; "), well: wrong.length === 0 };
}

// A browser that is killed right after a deletion has the cut in local storage again; the journal knows better.
async function deleted(full) {
  const app = await start();
  const wrong = [];
  const times = full ? 3 : 1;
  try {
    for (let i = 0; i < times; i += 1) {
      const { context, page, seen } = await app.newPhone();
      await open(app, page, "/");
      const made = await day(page);
      const before = await kept(page);
      await follow(page, `/book/${made.card}`);
      await page.getByRole("button", { name: /^Delete this card/ }).click();
      await page.getByRole("button", { name: /for good$/ }).click();
      await follow(page, "/");
      await page.getByRole("button", { name: /^Delete Typed by hand/ }).click();
      await page.getByRole("button", { name: "Delete for good" }).click();
      await page.waitForTimeout(300);
      // From within the page: opened anywhere else the app would start, and find the deletion done.
      await page.evaluate((texts) => { for (const [key, text] of Object.entries(texts)) localStorage.setItem(key, text); }, before);
      await open(app, page, "/");
      await page.locator(".cuts > li").first().waitFor();
      // Where the journal comes late the first screen shows it still, and is then drawn anew.
      await page.locator(".cuts .title").getByText(TYPED.title).waitFor({ state: "detached", timeout: 5000 }).catch(() => {});
      const texts = await kept(page);
      const { cut, record } = documents(texts);
      if (made.cut in cut) wrong.push("a deleted cut came back");
      if (made.card in record) wrong.push("a deleted card came back");
      if (!("of-the-file" in cut)) wrong.push("another cut went too");
      wrong.push(...sound(texts), ...seen.errors);
      await context.close();
    }
  } finally {
    await app.close();
  }
  return { tries: times * 2, figure: wrong.length === 0 ? "none came back" : wrong.slice(0, 4).join("; "), well: wrong.length === 0 };
}

export const gone = [
  { name: "the browser killed at a random moment of a walk", budget: "the same section with every value", quick: false, run: killed },
  { name: "the browser killed right after a deletion", budget: "what was deleted stays so", quick: false, run: deleted },
  { name: "cleared by the browser: local storage, the journal, parts, both", budget: "what one of the two has is all there", quick: true, run: cleared },
];
