// The app opened on what every released version left on a device.
import { readFile, readdir } from "node:fs/promises";
import { open, start } from "../../harness.mjs";
import { documents, follow, kept, settled, sound } from "./faults.mjs";

const SAVED = new URL("../../../data/saved/", import.meta.url);

// Lays local storage and journal as they were left.
const lay = (page, { keys, journal = {} }) => page.evaluate(({ keys, journal }) => new Promise((done, ill) => {
  localStorage.clear();
  for (const [key, text] of Object.entries(keys)) localStorage.setItem(key, text);
  const asked = indexedDB.open("tautline", 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore("journal");
  asked.onerror = ill;
  asked.onsuccess = () => {
    const work = asked.result.transaction("journal", "readwrite");
    work.objectStore("journal").clear();
    for (const [key, text] of Object.entries(journal)) work.objectStore("journal").put(text, key);
    work.oncomplete = () => { asked.result.close(); done(); };
  };
}), { keys, journal });

const SCREENS = ["head", "client", "plan", "edit", "see", "sheet", "walk", "end", "visit"];

async function one(app, name, fixture, wrong, screens) {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(10_000);
  const say = (what) => wrong.push(`${name}: ${what}`);
  // A page of the same origin where the app does not run; the browser asks for an icon there.
  await page.route("**/favicon.ico", (route) => route.fulfill({ status: 204 }));
  await page.goto(`${app.url}/manifest.webmanifest`);
  await lay(page, fixture);
  await open(app, page, "/");
  await page.locator(".cuts > li, .at-chair > li").first().waitFor();
  const before = documents(fixture.keys);
  const here = documents(await kept(page));
  if (Object.keys(here.cut).length !== Object.keys(before.cut).length) say("a cut is gone");
  if (Object.keys(here.record).length !== Object.keys(before.record).length) say("a card is gone");
  if (await page.getByText("can't be read").count() > 0) say("something can't be read");
  for (const id of Object.keys(here.cut)) {
    for (const screen of screens) {
      await follow(page, `/cut/${id}/${screen}`);
      await page.waitForFunction(() => {
        const main = document.querySelector("main");
        return [...document.querySelectorAll("h1")].some((h) => h.checkVisibility()) && main.innerText.trim().length > 20;
      }).catch(() => say(`${screen} is blank`));
      if (await page.getByText("can't be opened").count() > 0) say(`${screen} can't be opened`);
    }
    await follow(page, `/cut/${id}/head`);
    await page.getByLabel("Name of this cut").fill(`Changed now, ${id}`);
    await page.getByLabel("Name of this cut").press("Tab");
    await settled(page);
  }
  for (const id of Object.keys(here.record)) {
    await follow(page, `/book/${id}`);
    await page.getByRole("heading", { level: 1, name: here.record[id].name }).waitFor().catch(() => say("the card does not open"));
  }
  await page.reload();
  await page.getByRole("heading", { level: 1 }).first().waitFor();
  const texts = await kept(page);
  for (const [id, cut] of Object.entries(documents(texts).cut)) if (cut.title !== `Changed now, ${id}`) say(`${id} does not keep a change`);
  [...sound(texts), ...seen.errors].forEach(say);
  await context.close();
}

async function run(full) {
  const screens = full ? SCREENS : SCREENS.filter((screen) => /head|plan|walk/.test(screen));
  const app = await start();
  const wrong = [];
  const names = (await readdir(SAVED)).filter((name) => /^store-\d+\.json$/.test(name)).sort();
  try {
    for (const name of names) {
      await one(app, name, JSON.parse(await readFile(new URL(name, SAVED), "utf8")), wrong, screens)
        .catch((error) => wrong.push(`${name}: ${String(error).replaceAll(/\s+/g, " ").slice(0, 200)}`));
    }
  } finally {
    await app.close();
  }
  return { tries: names.length, figure: wrong.length === 0 ? `${names.length} of ${names.length} stores opened, changed and kept again` : wrong.slice(0, 4).join("; "), well: wrong.length === 0 };
}

export const old = [
  { name: "opened on the store that each released version left", budget: "all there, every screen, changes kept", quick: true, run },
];
