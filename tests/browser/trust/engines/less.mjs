// What a browser lacks: Chromium with one ability after the other taken away. No screen may fail, and
// where a person would miss something the screen says so.
//
//   LESS     [{ name, without, words }]: without runs before the app; words are where, and what is read there
//   lessOne(app, less)  → { found, tries }
import { atChair, done, face, newExample, toChair, toPlan } from "../../flow.mjs";
import { open } from "../../harness.mjs";

const gone = (...names) => names.map((name) => {
  const at = name.lastIndexOf(".");
  const [of, what] = at < 0 ? ["globalThis", name] : [name.slice(0, at), name.slice(at + 1)];
  // Where the ability is defined, and on what carries it, so that it is as if it had never been.
  return `try { for (let o = ${of}; o; o = Object.getPrototypeOf(o)) delete o[${JSON.stringify(what)}]; } catch {}`;
}).join("\n");

const idOf = (page) => page.url().split("/cut/")[1].split("/")[0];
const overview = async (page) => {
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByRole("heading", { name: "The whole cut" }).waitFor();
};
const backIn = (page) => page.getByRole("button", { name: "Back to the section" }).click();

export const LESS = [
  {
    name: "wake lock", without: gone("navigator.wakeLock"),
    before: /can't keep the screen on/,
  },
  {
    name: "vibration", without: gone("navigator.vibrate"),
    overview: /This device can't buzz/,
  },
  {
    name: "speech", without: gone("speechSynthesis", "SpeechSynthesisUtterance"),
    aloud: /no voice of its own/,
  },
  {
    name: "share", without: gone("navigator.share", "navigator.canShare"),
    shared: /can't share files: it is saved among the downloads instead/,
  },
  {
    name: "clipboard", without: gone("navigator.clipboard"),
    copied: /would not copy it/,
  },
  {
    name: "persistent storage", without: gone("navigator.storage"),
    lasting: /can't be asked/,
  },
  {
    name: "offline worker", without: gone("navigator.serviceWorker"),
    list: /can't keep the app itself/,
  },
  {
    name: "IndexedDB", without: gone("indexedDB"),
    list: /takes some seconds to write down/,
  },
  { name: "locks between windows", without: gone("navigator.locks") },
  { name: "messages between windows", without: gone("BroadcastChannel") },
  { name: "media queries by script", without: gone("matchMedia") },
  { name: "observers of size and place", without: gone("ResizeObserver", "IntersectionObserver") },
  { name: "idle time", without: gone("requestIdleCallback", "scheduler") },
  { name: "permissions, battery, connection", without: gone("navigator.permissions", "navigator.getBattery", "navigator.connection") },
  {
    name: "everything above at once",
    without: gone(
      "navigator.wakeLock", "navigator.vibrate", "speechSynthesis", "SpeechSynthesisUtterance", "navigator.share", "navigator.canShare",
      "navigator.clipboard", "navigator.storage", "navigator.serviceWorker", "indexedDB", "navigator.locks", "BroadcastChannel",
      "matchMedia", "ResizeObserver", "IntersectionObserver", "requestIdleCallback", "scheduler",
      "navigator.permissions", "navigator.getBattery", "navigator.connection",
    ),
    before: /can't keep the screen on/, overview: /This device can't buzz/, aloud: /no voice of its own/, copied: /would not copy it/,
    shared: /can't share files/, lasting: /can't be asked/, list: /can't keep the app itself/,
  },
];

const SCREENS = ["client", "choose", "edit", "aim", "compare", "sheet", "see/head", "see/outline", "see/lengths", "see/scalp", "pass", "visit", "end", "judge"];

export async function lessOne(app, less, { screens = SCREENS } = {}) {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(15_000);
  await page.addInitScript(less.without);
  const found = [];
  let tries = 0;
  const reads = async (where) => {
    if (!less[where]) return;
    tries += 1;
    const there = page.locator("main").getByText(less[where]).first();
    await there.waitFor({ timeout: 5000 }).catch(() => found.push(`${less.name}: nothing like ${less[where]} is read (${where})`));
  };
  try {
    await newExample(app, page);
    const id = idOf(page);
    await toPlan(page);
    await toChair(page, { stop: true });
    await reads("before");
    await page.getByRole("button", { name: "Start" }).click();
    await page.getByText(/^Section 1 of/).waitFor();
    await done(page);
    for (const name of ["Hold", "How", "Result", "Length"]) await face(page, name);
    await overview(page);
    await reads("overview");
    await page.getByRole("checkbox", { name: "Read each section aloud" }).check();
    await reads("aloud");
    await backIn(page);
    await done(page);
    for (const screen of screens) {
      tries += 1;
      await open(app, page, `/cut/${id}/${screen}`);
      await page.locator("main :is(svg, table, input, .note)").first().waitFor({ state: "attached" });
      if (await page.locator("#stopped").count()) found.push(`${less.name}: ${screen} stops`);
    }
    await open(app, page, `/cut/${id}/pass`);
    await page.getByRole("button", { name: "Copy the link" }).click();
    await reads("copied");
    await page.getByRole("button", { name: "Share the file" }).click();
    await reads("shared");
    await open(app, page, "/keep");
    await page.getByRole("button", { name: "Ask the browser to keep it" }).click().catch(() => {});
    await reads("lasting");
    await page.getByRole("button", { name: "Save everything as a file" }).click();
    await page.getByText("Saved among the downloads").waitFor();
    for (const path of ["/book", "/settings", "/take", "/"]) {
      tries += 1;
      await open(app, page, path);
    }
    await reads("list");
  } catch (error) {
    found.push(`${less.name}: ${String(error?.message ?? error).split("\n")[0]}`);
  }
  found.push(...seen.errors.map((error) => `${less.name}: ${error}`));
  await context.close();
  return { found, tries };
}
