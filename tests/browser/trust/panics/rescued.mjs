// What every panic test needs: a phone with something in it, and the file that the page outside the app
// saves, held against what is stored.
import { readFile } from "node:fs/promises";
import { open } from "../../harness.mjs";

export const stored = (page) => page.evaluate(() => Object.fromEntries(
  Object.entries(localStorage).filter(([key]) => key.startsWith("tautline"))));

// Every document by its key without the revision.
export const documents = (page) => page.evaluate(() => Object.fromEntries(
  Object.entries(localStorage)
    .filter(([key]) => /^tautline\.(cut|record)\./.test(key))
    .map(([key, text]) => [key.replace(/\.\d+$/, ""), text])));

// Presses the button of the box; → the file's path. Throws if it is not, sign for sign, what is stored.
export async function rescued(page) {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.locator("#stopped").getByRole("button", { name: "Save all data as a file" }).click(),
  ]);
  const path = await download.path();
  const { kind, keys } = JSON.parse(await readFile(path, "utf8"));
  const there = await stored(page);
  const same = Object.keys(there).length === Object.keys(keys).length
    && Object.entries(there).every(([key, text]) => keys[key] === text);
  if (kind !== "tautline-rescue" || !same) throw new Error("The file is not what is stored.");
  return path;
}

// Takes the file in on another phone with a sound app; throws unless every document is what it was.
export async function takenIn(app, path, wanted) {
  const { context, page } = await app.newPhone();
  await open(app, page, "/keep");
  await page.getByLabel("The file").setInputFiles(path);
  await page.getByRole("button", { name: "Add it to what is here" }).click();
  await page.getByText("It is taken in").waitFor();
  const got = await documents(page);
  if (JSON.stringify(Object.entries(got).sort()) !== JSON.stringify(Object.entries(wanted).sort())) {
    throw new Error(`Taken in: ${Object.keys(got)}; wanted: ${Object.keys(wanted)}`);
  }
  await context.close();
  return Object.keys(got).length;
}

