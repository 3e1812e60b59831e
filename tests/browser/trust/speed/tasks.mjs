// The long tasks on the way through a cut, each named by what was asked for.
import { done, longer, newExample, toChair, toPlan } from "../../flow.mjs";
import { open, start, workerReady } from "../../harness.mjs";

export async function longTasks(most) {
  const app = await start();
  try {
    const { context, page } = await app.newPhone();
    await open(app, page);
    await workerReady(page);
    const cdp = await context.newCDPSession(page);
    await cdp.send("Emulation.setCPUThrottlingRate", { rate: 4 });
    await page.addInitScript(() => {
      globalThis.tasks = [];
      new PerformanceObserver((list) => globalThis.tasks.push(...list.getEntries().map((task) => task.duration)))
        .observe({ type: "longtask", buffered: true });
    });
    const found = [];
    const step = async (name, work) => {
      await work();
      await page.waitForTimeout(1200);
      const longest = await page.evaluate(() => Math.max(0, ...globalThis.tasks.splice(0)));
      found.push({ name, longest });
    };
    await step("start and a new example", () => newExample(app, page));
    await step("the plan", () => toPlan(page));
    await step("the chair", () => toChair(page));
    await step("Done", () => done(page));
    await step("one longer", () => longer(page));
    const id = page.url().split("/cut/")[1].split("/")[0];
    for (const [name, path] of [["the client", "client"], ["the plan changed", "edit"], ["pictures", "see"],
      ["on paper", "sheet"], ["the library", "choose"], ["the visit", "visit"], ["checked", "judge"]]) {
      await step(name, () => open(app, page, `/cut/${id}/${path}`));
    }
    for (const [name, path] of [["the book", "/book"], ["out and back", "/keep"], ["settings", "/settings"]]) {
      await step(name, () => open(app, page, path));
    }
    const long = found.filter(({ longest }) => longest > 50).sort((a, b) => b.longest - a.longest);
    return {
      tries: found.length,
      figure: long.map(({ name, longest }) => `${name} ${longest.toFixed(0)} ms`).join(", ") || "none",
      well: long.every(({ longest }) => longest <= most),
    };
  } finally {
    await app.close();
  }
}
