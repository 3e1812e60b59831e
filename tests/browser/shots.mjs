// Pictures of the app's screens, for looking at: `make shots`. On a phone, a tablet and a desk, light
// and dark, walked through with the invented example.
import { askTooMuch, done, face, faces, newExample, toChair, toPlan } from "./flow.mjs";
import { open, shot, start } from "./harness.mjs";

const SIZES = {
  phone: { width: 360, height: 740 },
  tablet: { width: 768, height: 1024 },
  desk: { width: 1280, height: 800 },
};

const app = await start();
try {
  for (const [size, viewport] of Object.entries(SIZES)) {
    for (const colorScheme of ["light", "dark"]) {
      const { context, page } = await app.newPhone({ viewport, colorScheme });
      const take = (name) => shot(page, `${size}-${colorScheme}-${name}`);
      await open(app, page, "/");
      await take("1-list-empty");
      await newExample(app, page);
      await take("2-head");
      await page.getByRole("link", { name: "Talk it over first" }).click();
      await page.getByRole("heading", { level: 1, name: "The client" }).waitFor();
      for (const summary of await page.locator("main > details > summary").all()) await summary.click();
      await take("2-client");
      await page.goBack();
      await toPlan(page);
      await take("3-plan");
      const plan = page.url();
      await open(app, page, new URL(plan.replace("/plan", "/choose")).pathname);
      await page.waitForFunction(() => [...document.querySelectorAll(".thumb")].every((e) => e.firstChild));
      await take("3-library");
      await open(app, page, "/settings");
      await take("3-settings");
      await open(app, page, new URL(plan.replace("/plan", "/edit")).pathname);
      await page.locator(".steps button").nth(1).click();
      const elevation = page.locator("#elevation");
      await elevation.fill("60");
      await elevation.press("Enter");
      await take("3-edit");
      await open(app, page, new URL(plan.replace("/plan", "/compare")).pathname);
      await take("3-compare");
      await page.getByLabel("Over each other").check();
      await take("3-compare-over");
      for (const part of ["head", "outline", "lengths", "scalp"]) {
        await open(app, page, new URL(plan.replace("/plan", `/see/${part}`)).pathname);
        await page.locator("main svg[role=img]").first().waitFor();
        await take(`3-see-${part}`);
      }
      await open(app, page, new URL(plan.replace("/plan", "/sheet")).pathname);
      await take("3-sheet");
      await open(app, page, new URL(plan.replace("/plan", "/aim")).pathname);
      await askTooMuch(page);
      await page.getByRole("button", { name: "Find the holds" }).click();
      await page.getByRole("heading", { level: 2, name: "How to hold it" }).waitFor();
      await take("3-aim");
      await open(app, page, new URL(plan).pathname);
      await page.getByRole("table").waitFor();
      await toChair(page);
      for (let i = 0; i < 4; i += 1) await done(page);
      await take("4-walk");
      for (const name of await faces(page)) {
        await face(page, name);
        if (name !== "Length") await take(`4-walk-${name.toLowerCase()}`);
      }
      await page.getByRole("button", { name: "Overview" }).click();
      await take("4-overview");
      await page.getByRole("button", { name: "Back to the section" }).click();
      while ((await page.getByRole("button", { name: /^Done/ }).count()) > 0) await done(page);
      await take("5-end");
      for (const part of ["outline", "lengths", "scalp"]) {
        await open(app, page, new URL(plan.replace("/plan", `/see/${part}`)).pathname);
        await page.locator("main svg[role=img]").first().waitFor();
        await take(`5-see-${part}`);
      }
      await open(app, page, "/");
      await take("6-list");
      await open(app, page, new URL(plan.replace("/plan", "/pass")).pathname);
      await page.locator("main svg").first().waitFor();
      await take("7-pass");
      await open(app, page, "/keep");
      await take("7-keep");
      await open(app, page, "/take");
      await take("7-take");
      await open(app, page, "/book");
      await page.locator("summary", { hasText: "An invented salon" }).click();
      await page.getByRole("button", { name: "Load the invented salon" }).click();
      await page.getByText("8 cards").waitFor();
      await take("8-book");
      for (const [name, path] of [
        ["card", "/book/invented-fern"],
        ["practice-head", "/book/invented-head-3"],
        ["visit", "/cut/invented-fern-3/visit"],
        ["end", "/cut/invented-head-4-2/end"],
        ["judge", "/cut/invented-head-4-2/judge"],
        ["assess", "/cut/invented-head-4-2/assess"],
        ["trends", "/trends?of=invented-head-3"],
      ]) {
        await open(app, page, path);
        await page.waitForTimeout(1500);
        await take(`8-${name}`);
      }
      await context.close();
    }
  }
  console.log("The pictures are in tests/browser/shots.");
} finally {
  await app.close();
}
