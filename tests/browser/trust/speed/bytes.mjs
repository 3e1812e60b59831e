// What a first visit fetches before its first screen can be used.
import { join } from "node:path";
import { DIST, start } from "../../harness.mjs";
import { brotli } from "../../serve.mjs";

// So long after the first screen stands nothing more belongs to it, ms. The worker, which fetches the rest
// of the app for later, is switched off here.
const AFTER = 1500;

export async function bytes(most) {
  const app = await start();
  try {
    const { page, seen } = await app.newPhone({ serviceWorkers: "block" });
    await page.goto(app.url);
    await page.getByRole("button", { name: "New cut" }).waitFor();
    await page.waitForTimeout(AFTER);
    const paths = new Set(seen.requests.map((url) => new URL(url).pathname));
    // The browser asks for the manifest and an icon by itself, where requests don't show.
    paths.add("/manifest.webmanifest").add("/icons/icon.svg");
    let sum = 0;
    for (const path of paths) {
      sum += (await brotli(join(DIST, path === "/" ? "index.html" : path))).length;
    }
    return { tries: 1, figure: `${(sum / 1000).toFixed(0)} kB in ${paths.size} files`, well: sum <= most };
  } finally {
    await app.close();
  }
}
