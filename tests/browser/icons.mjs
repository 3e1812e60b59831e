// Draws the PNG icons in public/icons from the two SVG files there: `make icons`. The ones in the
// project were then reduced to 32 colours, which takes 32 kB off the first visit.
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { start } from "./harness.mjs";

const ICONS = new URL("../../public/icons/", import.meta.url);
// The home screen of some phones cuts its own corners, so its icon is the full square as well.
const PICTURES = [
  ["icon.svg", "icon-192.png", 192],
  ["icon.svg", "icon-512.png", 512],
  ["maskable.svg", "maskable-512.png", 512],
  ["maskable.svg", "apple-180.png", 180],
];

const app = await start();
try {
  for (const [from, to, size] of PICTURES) {
    const { context, page } = await app.newPhone({
      viewport: { width: size, height: size }, deviceScaleFactor: 1, isMobile: false,
    });
    await page.setContent(await readFile(new URL(from, ICONS), "utf8"));
    await page.addStyleTag({ content: "body { margin: 0 } svg { display: block; width: 100vw; height: 100vh }" });
    await page.screenshot({ path: fileURLToPath(new URL(to, ICONS)), omitBackground: true });
    await context.close();
  }
  console.log("The icons are in public/icons.");
} finally {
  await app.close();
}
