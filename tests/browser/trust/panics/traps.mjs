// A real trap in the running app: its memory is spoilt, and the next tap runs into it.
import { atChair, newExample, toPlan } from "../../flow.mjs";
import { open, shot, start, violations } from "../../harness.mjs";
import { documents, rescued, takenIn } from "./rescued.mjs";

// Keeps hold of every memory that the app's code is given.
const holdOn = () => {
  globalThis.memories = [];
  for (const name of ["instantiate", "instantiateStreaming"]) {
    const plain = WebAssembly[name];
    WebAssembly[name] = async (...all) => {
      const made = await plain.apply(WebAssembly, all);
      const { exports } = made.instance ?? made;
      globalThis.memories.push(...Object.values(exports).filter((it) => it instanceof WebAssembly.Memory));
      return made;
    };
  }
};

const spoil = (page) => page.evaluate(() => {
  if (!globalThis.memories.length) throw new Error("The app has no memory.");
  for (const memory of globalThis.memories) new Uint8Array(memory.buffer).fill(0xff);
});

// Buttons: a link whose handler traps is followed by the browser itself, and the app starts anew.
const SCREENS = {
  "the list": [(app, page) => newExample(app, page).then(() => open(app, page, "/")), (page) => page.getByRole("button", { name: "New cut" })],
  "the plan": [async (app, page) => { await newExample(app, page); await toPlan(page); }, (page) => page.locator("main input[type=radio]:not(:checked)").first()],
  "the chair": [(app, page) => atChair(app, page), (page) => page.getByRole("button", { name: /^Done/ })],
  "the settings": [async (app, page) => { await newExample(app, page); await open(app, page, "/settings"); }, (page) => page.locator("main input[type=radio]:not(:checked)").first()],
};

async function trapped(full) {
  const app = await start();
  const all = Object.entries(SCREENS).filter(([name]) => full || name === "the chair");
  try {
    for (const [name, [go, target]] of all) {
      const { context, page } = await app.newPhone({ acceptDownloads: true });
      await page.addInitScript(holdOn);
      try {
        await go(app, page);
        const wanted = await documents(page);
        await spoil(page);
        await target(page).dispatchEvent("click");
        await page.getByText("Tautline stopped. Nothing you saved is lost. Reload to go on.").waitFor({ timeout: 10_000 });
        if (name === "the chair") await shot(page, "stopped");
        const wrong = await violations(page);
        if (wrong.length) throw new Error(wrong.join("; "));
        await takenIn(app, await rescued(page), wanted);
        await page.locator("#stopped").getByRole("button", { name: "Reload" }).click();
        await page.locator("#app h1").first().waitFor();
        if (await page.locator("#stopped").count()) throw new Error("It did not come back.");
      } catch (error) {
        throw new Error(`${name}: ${error.message}`);
      } finally {
        await context.close();
      }
    }
    return { tries: all.length, figure: `${all.length} of ${all.length}: ${all.map(([name]) => name).join(", ")}`, well: true };
  } finally {
    await app.close();
  }
}

// A script of ours throws after the start: said, and closed again, for the app goes on.
async function thrown() {
  const app = await start();
  try {
    const { page } = await app.newPhone({ acceptDownloads: true });
    await newExample(app, page);
    for (const how of ["error", "rejection"]) {
      await page.evaluate((how) => {
        const error = new TypeError("x is not a function");
        error.stack = `TypeError: x is not a function\n    at f (${document.baseURI}app-0/tautline.js:1:1)`;
        if (how === "error") setTimeout(() => { throw error; });
        else Promise.reject(error);
      }, how);
      const box = page.locator("#faulty");
      await box.getByText("Something in Tautline went wrong. Nothing you saved is lost.").waitFor();
      const wrong = await violations(page);
      if (wrong.length) throw new Error(wrong.join("; "));
      await box.getByRole("button", { name: "Go on" }).click();
      if (await box.count()) throw new Error("The box stays.");
    }
    await toPlan(page);
    return { tries: 2, figure: "said, and the app goes on", well: true };
  } finally {
    await app.close();
  }
}

export const traps = [
  { name: "a script throws in the running app", budget: "says so, all data as a file, goes on", quick: true, run: thrown },
  {
    name: "the running app traps (its memory spoilt, then one tap)",
    budget: "says so, all data as a file, goes on after a reload",
    quick: true,
    run: trapped,
  },
];
