// Every screen and state of the app, written once: what looks right is looked at in all of them.
//
//   WORLDS    what is kept on the device: name → (app, page) → what the addresses below need
//   STATES    [{ name, world, path, then, chair, quick }]
//     path(ids)        the address
//     then(page, ids)  what is done there
//     chair            whether hands are wet there: what is pressed is larger
//     quick            whether `make test` looks at it too
//   go(app, page, state, ids)  goes there and waits until it stands
import { askTooMuch, atChair, done, face, longer, newExample } from "../../flow.mjs";
import { open } from "../../harness.mjs";

const idOf = (page) => page.url().split("/cut/")[1].split("/")[0];

const change = (page, change) => page.evaluate((change) => {
  const kept = JSON.parse(localStorage["tautline.settings"] ?? "{\"schema\":1}");
  localStorage["tautline.settings"] = JSON.stringify({ ...kept, ...change });
}, change);

// A cut at the chair of which two sections are done, one of them longer; and the invented salon.
async function full(app, page) {
  await atChair(app, page);
  const mine = idOf(page);
  await longer(page);
  await done(page);
  await done(page);
  await newExample(app, page);
  const planned = idOf(page);
  await open(app, page, "/book");
  await page.locator("summary", { hasText: "An invented salon" }).click();
  await page.getByRole("button", { name: "Load the invented salon" }).click();
  await page.getByText("8 cards").waitFor();
  return { mine, planned, finished: "invented-fern-3", judged: "invented-head-4-2" };
}

export const WORLDS = {
  empty: async () => ({}),
  full,
  // The client looks on.
  seen: async (app, page) => {
    const ids = await full(app, page);
    await change(page, { seen: true });
    return ids;
  },
  inches: async (app, page) => {
    const ids = await full(app, page);
    await change(page, { unit: "inches", hand: "left" });
    return ids;
  },
  // What is kept is damaged, newer than this version, or odd.
  damaged: async (app, page) => {
    await newExample(app, page);
    const odd = idOf(page);
    await newExample(app, page);
    const own = idOf(page);
    await page.goto("about:blank");
    await page.goto(`${app.url}/manifest.webmanifest`);
    await page.evaluate(([odd]) => {
      const put = (key, text) => localStorage.setItem(`tautline.${key}`, text);
      put("cut.broken.1", "{\"schema\":1,<b>");
      put("cut.newer.3", "{\"schema\":99}");
      put("record.bad.1", "{");
      const key = Object.keys(localStorage).find((key) => key.startsWith(`tautline.cut.${odd}.`));
      const cut = JSON.parse(localStorage[key]);
      cut.plan = "gone";
      cut.walk = { started_at: "", at: { step: "gone", side: "left", number: 99 } };
      cut.tapes = { circumference: "1e999", breadth: "21" };
      cut.saved_at = "yesterday";
      localStorage[key] = JSON.stringify(cut);
    }, [odd]);
    return { odd, own };
  },
  // A cut for which nobody has chosen anything.
  fresh: async (app, page) => {
    await open(app, page, "/");
    await page.getByRole("button", { name: "New cut" }).click();
    await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
    return { mine: idOf(page) };
  },
  locked: async (app, page) => {
    await newExample(app, page);
    await open(app, page, "/keep");
    await page.getByLabel("A PIN of 4 to 12 digits").fill("2580");
    await page.getByRole("button", { name: "Switch the lock on" }).click();
    await page.getByText("The lock is on").waitFor();
    return {};
  },
};

const opened = (page) => page.evaluate(() => {
  for (const one of document.querySelectorAll("details")) one.open = true;
});
const press = (name) => (page) => page.getByRole("button", { name }).first().click();
const at = (screen, which = "mine") => (ids) => `/cut/${ids[which]}/${screen}`;
const state = (world, name, path, then, more = {}) =>
  ({ world, name, path: typeof path === "string" ? () => path : path, then, ...more });

// One state as it is, and one with all that is folded away open.
const both = (world, name, path, more) => [
  state(world, name, path, undefined, more),
  state(world, `${name}, all unfolded`, path, opened),
];

async function typed(page, label, text) {
  const field = page.getByRole("textbox", { name: label }).first();
  await field.fill(text);
  await field.press("Tab");
}

const CHAIR = { chair: true };
const faceOf = (name) => (page) => face(page, name);

export const STATES = [
  state("empty", "the list, empty", "/"),
  ...both("empty", "the book, empty", "/book"),
  state("empty", "what comes back, of nothing", "/trends"),
  ...["elevation", "over-direction", "guide", "weight"].map((idea) => state("empty", `learn: ${idea}`, `/learn/${idea}`)),
  state("empty", "out and back, empty", "/keep"),
  state("empty", "an address that is none", "/nowhere"),
  state("empty", "a cut that is none", "/cut/none/plan"),
  state("empty", "a card that is none", "/book/none"),

  state("full", "the list", "/"),
  state("full", "the list, nothing found", "/", async (page) => {
    await page.locator("main input[type=search]").first().fill("zzzz");
    await page.waitForTimeout(300);
  }),
  state("full", "the list, asked whether to delete", "/", press(/^Delete/)),
  state("full", "the list, a new version waits", "/", (page) => page.evaluate(() => {
    document.documentElement.toggleAttribute("data-newer", true);
  })),
  state("full", "the settings", "/settings"),
  ...both("full", "the book", "/book"),
  state("full", "the book, nobody found", "/book", async (page) => {
    await page.locator("#find-card").fill("zzzz");
    await page.getByText("Nobody found").waitFor();
  }),
  ...both("full", "a card", "/book/invented-fern"),
  state("full", "a card, asked whether to delete", "/book/invented-fern", press("Delete this card and its visits")),
  ...both("full", "a practice head", "/book/invented-head-3"),
  ...both("full", "what comes back", "/trends?of=invented-head-3"),
  ...both("full", "out and back", "/keep"),
  state("full", "out and back, passphrases that differ", "/keep", async (page) => {
    await opened(page);
    await page.locator("#seal-first").fill("one passphrase here");
    await page.getByRole("button", { name: "Save it sealed" }).click();
    await page.getByText("The two passphrases differ").waitFor();
  }),
  state("full", "a plan taken in, refused", "/take", async (page) => {
    await page.locator("#take-link").fill("hello there");
    await page.getByRole("button", { name: "Look at it" }).click();
    await page.getByRole("alert").waitFor();
  }),
  state("full", "a plan that arrived", "/take", async (page) => {
    const text = { kind: "tautline-plan", schema: 1, name: "Invented", plan: "trim" };
    await page.locator("#take-link").fill(JSON.stringify(text));
    await page.getByRole("button", { name: "Look at it" }).click();
    await page.getByText("Nothing is kept yet").waitFor();
  }),
  state("full", "a plan taken in", "/take"),

  ...both("full", "the head", at("head", "planned"), { quick: true }),
  state("full", "the head, a tape that does not read", at("head", "planned"), (page) => typed(page, "Around the head", "long")),
  state("full", "the client", at("client", "planned")),
  state("full", "the client, all unfolded, marks set", at("client", "planned"), async (page) => {
    await opened(page);
    const map = page.locator(".growth-map svg").first();
    if (await map.count()) await map.click();
  }),
  ...both("full", "the library", at("choose", "planned")),
  ...both("full", "the plan", at("plan", "planned"), { quick: true }),
  ...both("full", "the plan's form", at("edit", "planned")),
  state("full", "the plan's form, values that do not read", at("edit", "planned"), async (page) => {
    await page.locator(".steps button").nth(1).click();
    await opened(page);
    const elevation = page.locator("#elevation");
    await elevation.fill("steep");
    await elevation.press("Tab");
  }),
  state("full", "the plan's form, a step changed", at("edit", "planned"), async (page) => {
    await page.locator(".steps button").nth(1).click();
    const elevation = page.locator("#elevation");
    await elevation.fill("30");
    await elevation.press("Enter");
    await page.locator(".was").filter({ hasText: "was" }).waitFor();
  }),
  state("full", "aiming", at("aim", "planned")),
  state("full", "aiming, answered", at("aim", "planned"), async (page) => {
    await askTooMuch(page);
    await page.getByRole("button", { name: "Find the holds" }).click();
    await page.getByRole("heading", { level: 2, name: "How to hold it" }).waitFor({ timeout: 60_000 });
  }),
  state("full", "comparing", at("compare", "planned")),
  state("full", "comparing, over each other", at("compare", "planned"), (page) => page.getByLabel("Over each other").check()),
  ...["head", "outline", "lengths", "scalp"].flatMap((part) =>
    both("full", `pictures: ${part}`, at(`see/${part}`), { quick: part === "outline" })),
  state("full", "the sheet", at("sheet")),
  ...both("full", "passing on", at("pass")),

  state("full", "before the first cut", at("walk", "planned"), undefined, CHAIR),
  state("full", "the chair, the length", at("walk"), faceOf("Length"), { ...CHAIR, quick: true }),
  state("full", "the chair, the hold", at("walk"), faceOf("Hold"), CHAIR),
  state("full", "the chair, how", at("walk"), faceOf("How"), CHAIR),
  state("full", "the chair, the result", at("walk"), faceOf("Result"), CHAIR),
  state("full", "the chair, it came out longer", at("walk"), longer, CHAIR),
  state("full", "the chair, a value that does not read", at("walk"), async (page) => {
    await face(page, "Result");
    await typed(page, /^(Came out at|Measured)/, "long");
  }, CHAIR),
  state("full", "the chair, paused", at("walk"), press("Pause"), CHAIR),
  state("full", "the overview", at("walk"), async (page) => {
    if (await page.getByRole("button", { name: "Go on" }).count()) {
      await page.getByRole("button", { name: "Go on" }).first().click();
    }
    await page.getByRole("button", { name: "Overview" }).click();
    await opened(page);
  }, CHAIR),
  ...both("full", "the end of a cut that goes on", at("end")),
  ...both("full", "the end of a finished cut", at("end", "judged")),
  ...both("full", "the visit", at("visit", "finished")),
  ...both("full", "the check", at("judge", "judged")),
  state("full", "the sheet for an assessor", at("assess", "judged")),
  state("full", "no room left", at("head", "planned"), async (page) => {
    await page.evaluate(() => {
      Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError"); };
    });
    await typed(page, "Name of this cut", "A name that does not fit");
    await page.getByRole("alert").first().waitFor();
  }),

  state("seen", "before the client: the list", "/"),
  state("seen", "before the client: the book", "/book"),
  state("seen", "before the client: a card", "/book/invented-fern"),
  state("seen", "before the client: the client", at("client", "finished")),
  state("seen", "before the client: the visit", at("visit", "finished")),
  state("seen", "before the client: the chair", at("walk"), faceOf("Result"), CHAIR),
  state("seen", "before the client: the end", at("end", "finished")),
  state("seen", "before the client: what comes back", "/trends?of=invented-head-3"),
  state("seen", "before the client: the check", at("judge", "judged")),

  ...["head", "client", "plan", "edit", "aim", "compare", "sheet", "end", "pass", "judge"].map((screen) =>
    state("inches", `in inches: ${screen}`, at(screen, screen === "judge" ? "judged" : "mine"))),
  state("inches", "in inches: the chair", at("walk"), faceOf("Length"), CHAIR),

  state("damaged", "the list with damaged cuts", "/"),
  state("damaged", "the book with a damaged card", "/book"),
  state("damaged", "a damaged cut", "/cut/broken/plan"),
  state("damaged", "a cut of a newer version", "/cut/newer/head"),
  ...["head", "client", "plan", "edit", "aim", "compare", "see/outline", "sheet", "walk", "end", "visit", "judge", "pass", "choose"]
    .map((screen) => state("damaged", `an odd cut: ${screen}`, at(screen, "odd"))),
  state("damaged", "the app has stopped", at("plan", "own"), async (page) => {
    await page.evaluate(() => {
      dispatchEvent(new ErrorEvent("error", { error: new WebAssembly.RuntimeError("unreachable") }));
    });
    await page.locator("#stopped").waitFor();
  }),

  state("fresh", "nothing chosen: the list", "/"),
  ...["head", "client", "choose", "plan", "visit"].map((screen) =>
    state("fresh", `nothing chosen: ${screen}`, at(screen), undefined, { quick: screen === "plan" })),
  state("fresh", "nothing chosen: before the first cut", at("walk"), undefined, CHAIR),

  ...both("locked", "the lock", "/"),
  state("locked", "the lock, a wrong PIN", "/", async (page) => {
    await page.getByLabel("PIN", { exact: true }).fill("1111");
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await page.getByText(/That is not the PIN|Try again in/).waitFor();
  }),
];

// Whatever is drawn after the words has come: the page has not changed for a moment.
async function still(page) {
  await page.evaluate(() => new Promise((ready) => {
    const quiet = () => { watch.disconnect(); ready(); };
    let waiting = setTimeout(quiet, 250);
    const latest = setTimeout(quiet, 5000);
    const watch = new MutationObserver(() => {
      clearTimeout(waiting);
      waiting = setTimeout(() => { clearTimeout(latest); quiet(); }, 250);
    });
    watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
  }));
}

export async function go(app, page, state, ids) {
  // Away first: what the state before did to the page is gone.
  await page.goto("about:blank");
  await open(app, page, state.path(ids));
  await still(page);
  await state.then?.(page, ids);
  await still(page);
}
