// Pictures of the app's pages on a phone, light and dark, for looking at: `make shots`.
import { open, shot, start } from "./harness.mjs";

const PAGES = { home: "/" };

const app = await start();
try {
  for (const colorScheme of ["light", "dark"]) {
    const { context, page } = await app.newPhone({ colorScheme });
    for (const [name, path] of Object.entries(PAGES)) {
      await open(app, page, path);
      await shot(page, `${name}-${colorScheme}`);
    }
    await context.close();
  }
  console.log("The pictures are in tests/browser/shots.");
} finally {
  await app.close();
}
