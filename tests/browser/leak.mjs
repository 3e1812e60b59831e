// What each screen leaves behind: opened and left many times, and everything that may go has gone. By hand:
//
//   node leak.mjs [TIMES]
//
//   leaks(app, times)   → [{ path, nodes, listeners, kilobytes }]: what there is more of afterwards
import { fileURLToPath } from "node:url";
import { open, start } from "./harness.mjs";
import { day } from "./trust/storage/day.mjs";
import { follow } from "./trust/storage/faults.mjs";

const SCREENS = ["head", "client", "plan", "choose", "edit", "aim", "compare", "see", "see/head", "see/outline", "see/lengths", "sheet", "pass", "walk", "end", "visit", "judge", "assess"];

export async function leaks(app, times) {
  const { context, page } = await app.newPhone();
  await open(app, page, "/");
  const { cut, card } = await day(page);
  const cdp = await context.newCDPSession(page);
  await cdp.send("Performance.enable");
  const measured = async () => {
    await follow(page, "/settings");
    await page.waitForTimeout(200);
    for (let i = 0; i < 3; i += 1) await cdp.send("HeapProfiler.collectGarbage");
    const { metrics } = await cdp.send("Performance.getMetrics");
    return ["Nodes", "JSEventListeners", "JSHeapUsedSize"].map((name) => metrics.find((m) => m.name === name).value);
  };
  const found = [];
  // The walk of one that is not begun, everything else of one that is finished.
  const paths = SCREENS.map((screen) => `/cut/${screen === "walk" ? "of-the-file" : cut}/${screen}`);
  for (const path of ["/", "/book", `/book/${card}`, "/trends", "/take", "/keep", "/learn", ...paths]) {
    // Once before, for what is made once.
    await follow(page, path);
    await page.waitForTimeout(50);
    const before = await measured();
    for (let i = 0; i < times; i += 1) {
      await follow(page, path);
      await follow(page, "/settings");
    }
    const [nodes, listeners, bytes] = (await measured()).map((value, i) => value - before[i]);
    found.push({ path: path.replace(cut, "ID").replace(card, "ID"), nodes, listeners, kilobytes: Math.round(bytes / 1000) });
  }
  await context.close();
  return found;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const app = await start();
  try {
    console.table(await leaks(app, Number(process.argv[2] ?? 25)));
  } finally {
    await app.close();
  }
}
