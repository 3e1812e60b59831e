// Two windows that write at once, in any order: the same cut, different cuts, cards, settings.
import { newExample, toPlan } from "../../flow.mjs";
import { open, start } from "../../harness.mjs";
import { alerts, chance, documents, follow, kept, settled, sound } from "./faults.mjs";

const SEED = 23;

// What a window writes: each into a place of its own, so that whatever is lost shows.
const WRITES = {
  async notes(page, state, text) {
    await page.getByLabel("Notes", { exact: true }).fill(text);
    await page.getByLabel("Notes", { exact: true }).press("Tab");
    state.notes = text;
  },
  async private(page, state, text) {
    await page.getByLabel(/^Private note/).fill(text);
    await page.getByLabel(/^Private note/).press("Tab");
    state.private = text;
  },
};

const valueOf = (cut, what) => (what === "notes" ? cut.visit?.notes : cut.consultation?.answers?.note);

async function card(page, name) {
  await follow(page, "/book");
  const details = page.locator("details", { hasText: "New client or practice head" });
  if (!(await details.evaluate((d) => d.open))) await details.locator("summary").click();
  await page.getByText("A practice head", { exact: true }).click();
  await page.locator("#card-name").fill(name);
  await page.getByRole("button", { name: "Make the card" }).click();
  await page.getByRole("heading", { level: 1, name }).waitFor();
  return new URL(page.url()).pathname.split("/")[2];
}

// Both windows on one cut: one writes the notes, the other the private note, at random times.
async function oneCut(app, rounds, dice) {
  const { context, page: one, seen } = await app.newPhone();
  const wrong = [];
  await newExample(app, one);
  const id = one.url().split("/cut/")[1].split("/")[0];
  const two = await context.newPage();
  await open(app, one, `/cut/${id}/visit`);
  await open(app, two, `/cut/${id}/visit`);
  const [a, b] = [{}, {}];
  for (let i = 0; i < rounds; i += 1) {
    await Promise.all([
      one.waitForTimeout(dice.below(25)).then(() => WRITES.notes(one, a, `notes ${i} ${dice.below(1e6)}`)),
      two.waitForTimeout(dice.below(25)).then(() => WRITES.private(two, b, `private ${i} ${dice.below(1e6)}`)),
    ]);
    await one.waitForTimeout(300);
    const cut = documents(await kept(one)).cut[id];
    const said = `${await alerts(one)} ${await alerts(two)}`.trim();
    for (const [what, state] of [["notes", a], ["private", b]]) {
      if (valueOf(cut, what) !== state[what] && said === "") wrong.push(`round ${i}: ${what} “${valueOf(cut, what)}” for “${state[what]}”`);
    }
  }
  wrong.push(...sound(await kept(one)), ...seen.errors);
  await context.close();
  return wrong;
}

// A cut, a card and the settings by each window, at random times: all documents of both are there.
async function apart(app, rounds, dice) {
  const { context, page: one, seen } = await app.newPhone();
  const wrong = [];
  await newExample(app, one);
  const two = await context.newPage();
  await newExample(app, two);
  await toPlan(two);
  const made = { cut: {}, record: {} };
  const ids = [one, two].map((page) => page.url().split("/cut/")[1].split("/")[0]);
  for (let i = 0; i < rounds; i += 1) {
    await Promise.all([one, two].map(async (page, n) => {
      await page.waitForTimeout(dice.below(20));
      if (i % 4 === 3) {
        const name = `Card ${i} of window ${n}`;
        made.record[await card(page, name)] = name;
      } else if (i % 4 === 1) {
        await follow(page, "/settings");
        await page.getByRole("radio", { name: n === 0 ? "Inches" : "The left hand" }).check({ force: true });
      } else {
        await follow(page, `/cut/${ids[n]}/head`);
        const title = `Round ${i} of window ${n}`;
        await page.getByLabel("Name of this cut").fill(title);
        await page.getByLabel("Name of this cut").press("Tab");
        made.cut[ids[n]] = title;
      }
      await settled(page);
    }));
  }
  await one.waitForTimeout(100);
  // A fresh start looks over the indexes.
  await open(app, one, "/");
  await one.waitForTimeout(400);
  await follow(one, "/book");
  const texts = await kept(one);
  const found = documents(texts);
  for (const [id, title] of Object.entries(made.cut)) if (found.cut[id]?.title !== title) wrong.push(`cut “${found.cut[id]?.title}” for “${title}”`);
  for (const [id, name] of Object.entries(made.record)) if (found.record[id]?.name !== name) wrong.push(`card “${found.record[id]?.name}” for “${name}”`);
  const settings = JSON.parse(texts["tautline.settings"]);
  if (settings.unit !== "inches" || settings.hand !== "left") wrong.push(`settings ${texts["tautline.settings"].slice(0, 80)}`);
  wrong.push(...sound(texts), ...seen.errors);
  await context.close();
  return wrong;
}

async function run(what, rounds, times) {
  const app = await start();
  const dice = chance(SEED);
  const wrong = [];
  try {
    for (let i = 0; i < times; i += 1) wrong.push(...await what(app, rounds, dice));
  } finally {
    await app.close();
  }
  const writes = rounds * times * 2;
  return {
    tries: writes,
    figure: wrong.length === 0 ? `${writes} writes, none lost (seed ${SEED})` : `${wrong.length} of ${writes}: ${wrong.slice(0, 4).join("; ")}`,
    well: wrong.length === 0,
  };
}

const BUDGET = "no save lost without being said";
export const windows = [
  { name: "two windows write one cut at once", budget: BUDGET, quick: true, run: (full) => run(oneCut, full ? 60 : 6, full ? 3 : 1) },
  { name: "two windows write cuts, cards and settings at once", budget: BUDGET, quick: false, run: (full) => run(apart, full ? 16 : 4, full ? 2 : 1) },
];
