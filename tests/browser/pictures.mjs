// The README's pictures, on a phone, light: `make pictures`.
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { done, newExample, toChair, toPlan } from "./flow.mjs";
import { open, start } from "./harness.mjs";

const FOLDER = join(import.meta.dirname, "../../public/pictures");

const app = await start();
try {
  await mkdir(FOLDER, { recursive: true });
  const { page } = await app.newPhone({ deviceScaleFactor: 1.5, reducedMotion: "reduce" });
  const take = async (name) => {
    await page.waitForTimeout(300);
    await page.screenshot({ path: join(FOLDER, `${name}.png`) });
  };
  await newExample(app, page);
  await toPlan(page);
  const plan = new URL(page.url()).pathname;
  // From the table on, without what stands above it.
  await page.getByRole("table").first().evaluate((e) => e.scrollIntoView({ block: "center" }));
  await take("plan");
  await open(app, page, plan.replace("/plan", "/see/outline"));
  await page.locator("main svg[role=img]").first().waitFor();
  await take("outline");
  await open(app, page, "/learn/elevation");
  await take("learn");
  await open(app, page, plan);
  await page.getByRole("table").waitFor();
  await toChair(page);
  for (let i = 0; i < 4; i += 1) await done(page);
  await take("chair");
} finally {
  await app.close();
}
