// A working day in short, as a person goes through it: a new cut, its head, a plan, the walk to its end, the
// visit, a card in the book, the settings, a file taken in. One page, never loaded again on the way.
//
//   day(page, options)    walks through it; → { cut, card, problems }: problems is what did not stand on the screen
//   missing(texts, made)  → what of that day is not in these texts, one line each
//   takeIn(page)          takes the file in, on the screen of everything out and back
import { inflateSync } from "node:zlib";
import { follow, settled } from "./faults.mjs";

export const TYPED = {
  around: "57.3 cm", title: "Typed by hand 7", notes: "Parts it on the left; typed on the day.",
  card: "Q. Testing (invented)", cardNotes: "Typed on the card.", file: "Out of the file",
};

const FILE = JSON.stringify({
  kind: "tautline", schema: 1, saved_at: "2026-01-01T00:00:00.000Z",
  cuts: [{ schema: 3, id: "of-the-file", saved_at: "2026-01-01T00:00:00.000Z", title: TYPED.file, plan: "straight-fringe" }],
});

const heading = (page, name) => page.getByRole("heading", { level: 1, name }).waitFor();

// Types into a field, leaves it, and says if it no longer shows that.
async function type(page, field, text, problems) {
  await field.fill(text);
  await field.press("Tab");
  await settled(page);
  const shows = await field.inputValue().catch(() => "nothing");
  if (shows !== text) problems.push(`“${text}” became “${shows}”`);
}

export async function takeIn(page) {
  await follow(page, "/keep");
  await page.getByLabel("The file").setInputFiles({ name: "f.json", mimeType: "application/json", buffer: Buffer.from(FILE) });
  await page.getByRole("button", { name: "Add it to what is here" }).click();
  await page.locator("main").getByText(/It is taken in|Nothing was changed\./).first().waitFor();
  return (await page.locator("main").getByText("It is taken in").count()) > 0;
}

export async function day(page) {
  const problems = [];
  await follow(page, "/");
  await page.getByRole("button", { name: "New cut" }).click();
  await heading(page, "The head");
  const cut = page.url().split("/cut/")[1].split("/")[0];
  await type(page, page.getByLabel("Name of this cut"), TYPED.title, problems);
  await type(page, page.getByRole("textbox", { name: "Around the head" }), TYPED.around, problems);
  await follow(page, `/cut/${cut}/choose`);
  await page.locator(".offer .title").getByText("Straight fringe").click();
  await page.getByRole("button", { name: "Take this cut" }).click().catch(() => {});
  await follow(page, `/cut/${cut}/walk`);
  await page.getByRole("button", { name: "Start" }).click();
  await page.getByText(/^Section 1 of/).waitFor();
  const result = page.getByRole("button", { name: "Result", exact: true });
  await result.click();
  await page.getByRole("button", { name: "Longer" }).click();
  await page.getByRole("button", { name: "Take it back" }).waitFor();
  const cameOut = await page.locator("#came-out").inputValue();
  const count = Number((await page.getByText(/^Section 1 of/).innerText()).match(/of (\d+)/)[1]);
  for (let i = 0; i < count; i += 1) {
    await page.evaluate(() => document.querySelector(".done").click());
    await settled(page);
  }
  await heading(page, "Planned and cut");
  await follow(page, `/cut/${cut}/visit`);
  await type(page, page.getByLabel("Notes", { exact: true }), TYPED.notes, problems);
  await follow(page, "/book");
  const details = page.locator("details", { hasText: "New client or practice head" });
  if (!(await details.evaluate((d) => d.open))) await details.locator("summary").click();
  await page.getByText("A practice head", { exact: true }).click();
  await page.locator("#card-name").fill(TYPED.card);
  await page.getByRole("button", { name: "Make the card" }).click();
  await heading(page, TYPED.card);
  const card = new URL(page.url()).pathname.split("/")[2];
  await page.locator("summary", { hasText: "Name, tags and notes" }).click();
  await type(page, page.getByLabel("Notes", { exact: true }), TYPED.cardNotes, problems);
  await follow(page, "/settings");
  await page.getByText("Inches", { exact: true }).click();
  if (!(await page.getByRole("radio", { name: "Inches" }).isChecked())) problems.push("inches were not chosen");
  const taken = await takeIn(page);
  // Back on the first screens everything typed still stands.
  await follow(page, `/cut/${cut}/head`);
  await heading(page, "The head");
  for (const [label, text] of [["Name of this cut", TYPED.title], ["Around the head", TYPED.around]]) {
    const shows = await page.getByRole("textbox", { name: label }).inputValue();
    if (shows !== text) problems.push(`back on the head “${text}” became “${shows}”`);
  }
  await follow(page, "/");
  await page.locator(".cuts .title").getByText(TYPED.title).waitFor();
  return { cut, card, count, cameOut, taken, problems };
}

const unpack = (text) => JSON.parse(text.startsWith("~") ? inflateSync(Buffer.from(text.slice(1), "base64url")).toString() : text);

export function missing(texts, { cut, card, count, taken }) {
  const wrong = [];
  const of = (place, index, id) => {
    // Without an index the newest is in force.
    const all = Object.keys(texts).filter((key) => key.startsWith(`tautline.${place}.${id}.`));
    const newest = Math.max(...all.map((key) => Number(key.slice(key.lastIndexOf(".") + 1))));
    const revision = texts[index] === undefined ? newest : JSON.parse(texts[index]).cuts[id];
    const text = texts[`tautline.${place}.${id}.${revision}`];
    return text === undefined ? undefined : unpack(text);
  };
  const want = (what, is, should) => {
    if (is !== should) wrong.push(`${what}: ${JSON.stringify(is)} for ${JSON.stringify(should)}`);
  };
  const saved = of("cut", "tautline.index", cut);
  want("title", saved?.title, TYPED.title);
  want("tape", saved?.tapes?.circumference, TYPED.around);
  want("plan", saved?.plan, "straight-fringe");
  want("sections done", saved?.walk?.done.length, count);
  want("one came out otherwise", saved?.walk?.done.filter((d) => d.came_out_at !== undefined).length, 1);
  want("finished", typeof saved?.walk?.finished_at, "string");
  want("notes", saved?.visit?.notes, TYPED.notes);
  const record = of("record", "tautline.records", card);
  want("card", record?.name, TYPED.card);
  want("notes of the card", record?.notes, TYPED.cardNotes);
  want("unit", JSON.parse(texts["tautline.settings"] ?? "{}").unit, "inches");
  if (taken) want("out of the file", of("cut", "tautline.index", "of-the-file")?.title, TYPED.file);
  return wrong;
}
