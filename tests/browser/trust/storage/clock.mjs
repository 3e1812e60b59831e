// The clock of the device goes back: between saves, during a walk, over the day. What counts is the order of
// saves, never the time.
import { done, newExample, section, toChair, toPlan } from "../../flow.mjs";
import { open, start } from "../../harness.mjs";
import { chance, documents, follow, kept, settled, sound } from "./faults.mjs";

const SEED = 31;
const HOUR = 3_600_000;

// A clock that is turned by globalThis.turned, over loads too.
const clock = () => {
  const Real = Date;
  const turned = () => Number(sessionStorage.getItem("turned") ?? 0);
  class Turned extends Real {
    constructor(...all) {
      if (all.length === 0) super(Real.now() + turned());
      else super(...all);
    }

    static now() {
      return Real.now() + turned();
    }
  }
  globalThis.Date = Turned;
};

const turn = (page, ms) => page.evaluate((ms) => sessionStorage.setItem("turned", String(ms)), ms);

const journalOf = (page, id) => page.evaluate((id) => new Promise((done, ill) => {
  const asked = indexedDB.open("tautline", 1);
  asked.onerror = ill;
  asked.onsuccess = () => {
    const keys = asked.result.transaction("journal").objectStore("journal").getAllKeys();
    keys.onsuccess = () => { asked.result.close(); done(keys.result.filter((key) => key.startsWith(`${id}\n`))); };
  };
}), id);

async function walk(app, dice, wrong) {
  const { context, page, seen } = await app.newPhone();
  await context.addInitScript(clock);
  await newExample(app, page);
  await toPlan(page);
  await toChair(page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  let last = 0;
  let saved = "";
  for (let i = 1; i <= 8; i += 1) {
    // Mostly back: by minutes, hours, days, years.
    await turn(page, dice.of([-60_000, -HOUR, -30 * HOUR, -400 * 24 * HOUR, 24 * HOUR, -5]) * (1 + dice.below(4)));
    await done(page);
    const texts = await kept(page);
    const cut = documents(texts).cut[id];
    const revision = JSON.parse(texts["tautline.index"]).cuts[id];
    if (cut.walk.done.length !== i) wrong.push(`${cut.walk.done.length} sections done for ${i}`);
    if (revision <= last) wrong.push(`revision ${revision} after ${last}`);
    if (cut.saved_at < saved) wrong.push(`saved at ${cut.saved_at} after ${saved}`);
    [last, saved] = [revision, cut.saved_at];
    await page.waitForTimeout(40);
    const keys = await journalOf(page, id);
    if (keys.join() !== `${id}\n${revision}`) wrong.push(`the journal has ${JSON.stringify(keys)} for ${revision}`);
    if (i % 3 === 0) {
      await page.reload();
      if ((await section(page)).place !== i + 1) wrong.push(`on another section after a reload`);
    }
    wrong.push(...sound(texts));
  }
  for (const path of [`/cut/${id}/end`, `/cut/${id}/visit`, "/", "/trends"]) {
    await follow(page, path);
    await page.getByRole("heading", { level: 1 }).first().waitFor();
    const text = await page.locator("main").innerText();
    const odd = /NaN|Invalid|-\d+ (min|hour|second)|undefined/.exec(text);
    if (odd) wrong.push(`${path} says “${odd[0]}”`);
  }
  wrong.push(...seen.errors);
  await context.close();
}

// An older copy out of a file does not go over what was kept since with a clock that was set back.
async function file(app, wrong) {
  const { context, page, seen } = await app.newPhone();
  await context.addInitScript(clock);
  await newExample(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  const old = documents(await kept(page)).cut[id];
  await turn(page, -50 * HOUR);
  await page.getByLabel("Name of this cut").fill("Kept later");
  await page.getByLabel("Name of this cut").press("Tab");
  await settled(page);
  await follow(page, "/keep");
  const text = JSON.stringify({ kind: "tautline", schema: 1, cuts: [old] });
  await page.getByLabel("The file").setInputFiles({ name: "f.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.getByRole("button", { name: "Add it to what is here" }).click();
  await page.getByText("It is taken in").waitFor();
  const title = documents(await kept(page)).cut[id].title;
  if (title !== "Kept later") wrong.push(`a file with an older copy made it “${title}”`);
  wrong.push(...seen.errors);
  await context.close();
}

// A clock that stands still: no two documents get one name.
async function ids(app, count, wrong) {
  const { context, page } = await app.newPhone();
  await context.addInitScript(() => { Date.now = () => 1_764_100_000_000; });
  await open(app, page, "/");
  for (let i = 0; i < count; i += 1) {
    await follow(page, "/");
    await page.getByRole("button", { name: "New cut" }).click();
    await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
  }
  const found = Object.keys(documents(await kept(page)).cut).length;
  if (found !== count) wrong.push(`${found} cuts of ${count} made in one moment`);
  await context.close();
}

async function run(full) {
  const app = await start();
  const dice = chance(SEED);
  const wrong = [];
  const times = full ? 6 : 1;
  const made = full ? 60 : 5;
  try {
    for (let i = 0; i < times; i += 1) await walk(app, dice, wrong);
    await file(app, wrong);
    await ids(app, made, wrong);
  } finally {
    await app.close();
  }
  const tries = times * 8 + 1 + made;
  return {
    tries,
    figure: wrong.length === 0 ? `${tries} of ${tries} saves in their order, no name twice (seed ${SEED})` : wrong.slice(0, 4).join("; "),
    well: wrong.length === 0,
  };
}

export const clocks = [
  { name: "the clock goes back: between saves, in a walk, over days; and stands still", budget: "order by revision, nothing newer overwritten", quick: true, run },
];
