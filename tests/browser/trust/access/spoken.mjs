// What a screen reader has of each main screen, as expectations in words: landmarks, one heading of the
// first level and the rest in order, every control named, pictures with names and a table beside them, and
// what is said by itself when something is done.
import assert from "node:assert/strict";
import { atChair, done, longer, newExample, toPlan } from "../../flow.mjs";
import { open } from "../../harness.mjs";

// screen → what its snapshot must hold, in order of no importance.
const EXPECTED = {
  "/": [/heading "Your cuts" \[level=1\]/, /button "New cut"/, /heading "At the chair now" \[level=2\]/, /link "Go on with Invented example/, /button "Delete Invented example/],
  head: [/navigation "Stages of this cut"/, /link "Head"/, /heading "The head" \[level=1\]/, /textbox "Name of this cut"/, /group "Lengths in"/, /radio "Centimetres" \[checked\]/, /img "Around the head"/, /textbox "Around the head":\n.*placeholder: cm\n.*54 cm/, /link "On to the plan"/],
  client: [/heading "The client" \[level=1\]/, /combobox "Front: should end at"/, /combobox "Front: never shorter than"/, /textbox "No hair shorter than/, /link "On to the plan"/],
  plan: [/heading "Soft layers with a face frame" \[level=1\]/, /link "To the chair"/, /table/, /rowheader "Front piece"/, /columnheader "Off"/],
  edit: [/heading "Change the plan" \[level=1\]/, /textbox "Name of the plan"/, /button "Undo" \[disabled\]|button "Undo"/, /img "/, /heading "Steps in order" \[level=2\]/],
  aim: [/heading "Aim backwards" \[level=1\]/, /slider "/, /checkbox "Front pieces/, /button "Find the holds"/],
  compare: [/heading "Compare" \[level=1\]/, /combobox "One"/, /combobox "Two"/, /img "/, /table/],
  "see/head": [/heading "Pictures" \[level=1\]/, /navigation "Which picture"/, /img "/],
  "see/outline": [/navigation "Which picture"/, /img "/, /table/],
  "see/lengths": [/img "/, /table/],
  "see/scalp": [/img "/, /combobox "Section"/, /group: The letters, and the lengths there/],
  sheet: [/heading .* \[level=1\]/, /button "Print"/, /table/],
  pass: [/heading "Pass the plan on" \[level=1\]/, /textbox "It is called"/, /img "A code that opens this plan/, /textbox "The link"/, /button "Copy the link"/],
  walk: [/heading ".*(Left|Right|Middle) \d+ of \d+.*" \[level=1\]/, /region "The section"/, /img ".*, as it is held"/, /button "Back"/, /button "Done"/, /button "Overview"/],
  end: [/heading "Planned and cut" \[level=1\]/, /table/, /img "/, /link "Check it yourself"/],
  visit: [/heading "Visit" \[level=1\]/, /combobox "Whose visit"/, /textbox "Tags/, /textbox "Notes/],
  judge: [/heading .* \[level=1\]/, /textbox "Front hairline/],
  "/book": [/heading "The book" \[level=1\]/, /textbox "Name or initials"/, /button "Make the card"/],
  "/settings": [/heading "Settings" \[level=1\]/, /radio "Centimetres"/, /radio "The right hand"/, /link "Everything out and back, and the lock"/],
  "/keep": [/heading "Everything out and back" \[level=1\]/, /button "Save everything as a file"/, /(button|textbox) "The file"/, /textbox "A PIN of 4 to 12 digits"/],
  "/take": [/heading "Open a plan from a file or link" \[level=1\]/, /textbox "A link, pasted"/, /button "Look at it"/],
};

// In the page: what breaks the rules that hold everywhere.
const rules = () => {
  const found = [];
  const seen = (e) => e.checkVisibility({ visibilityProperty: true });
  const levels = [...document.querySelectorAll("h1, h2, h3, h4")].filter(seen).map((h) => Number(h.tagName[1]));
  if (levels.filter((level) => level === 1).length !== 1) found.push(`${levels.filter((level) => level === 1).length} headings of the first level`);
  levels.forEach((level, i) => {
    if (i > 0 && level > levels[i - 1] + 1) found.push(`a heading of level ${level} after one of level ${levels[i - 1]}`);
  });
  if (document.querySelectorAll("main").length !== 1) found.push("not one main");
  if (!document.querySelector(".chair") && document.querySelectorAll("header").length < 1) found.push("no banner");
  if (!/ · Tautline$/.test(document.title)) found.push(`the page is called “${document.title}”`);
  for (const picture of document.querySelectorAll("main svg[role=img]")) {
    if (seen(picture) && !picture.getAttribute("aria-label") && !picture.querySelector("title")?.textContent) found.push("a picture without a name");
  }
  return found;
};

export async function spoken(app) {
  const { context, page, seen } = await app.newPhone();
  page.setDefaultTimeout(15_000);
  const found = [];
  let tries = 0;
  const check = (is, what) => {
    tries += 1;
    if (!is) found.push(what);
  };
  await atChair(app, page);
  const id = page.url().split("/cut/")[1].split("/")[0];
  await longer(page);
  await done(page);
  await done(page);
  for (const [screen, expected] of Object.entries(EXPECTED)) {
    await open(app, page, screen.startsWith("/") ? screen : `/cut/${id}/${screen}`);
    await page.locator("main :is(svg, table, input, textarea, .note)").first().waitFor({ state: "attached" });
    await page.waitForTimeout(250);
    const heard = await page.locator("body").ariaSnapshot();
    for (const what of expected) check(what.test(heard), `${screen}: nothing like ${what}`);
    // Whatever can be pressed or typed into has a name.
    for (const line of heard.split("\n")) {
      if (/^\s*- (button|link|textbox|searchbox|combobox|checkbox|radio|slider|img|spinbutton)(:|$| \[)/.test(line)) check(false, `${screen}: no name: ${line.trim()}`);
    }
    for (const broken of await page.evaluate(rules)) check(false, `${screen}: ${broken}`);
    tries += 1;
  }

  // What is said by itself. The regions stand before anything is said in them, else nothing is heard.
  const hears = async (what, doing, wanted) => {
    await page.evaluate(() => {
      globalThis.heard = [];
      const live = "[aria-live]:not([aria-live=off]), [role=status], [role=alert]";
      globalThis.ear?.disconnect();
      globalThis.ear = new MutationObserver((all) => {
        for (const { target, addedNodes } of all) {
          const at = target.nodeType === Node.TEXT_NODE ? target.parentElement : target;
          const region = at?.closest(live);
          if (region) globalThis.heard.push(region.textContent);
          for (const node of addedNodes) if (node.nodeType === 1) for (const alert of [node, ...node.querySelectorAll("*")]) if (alert.matches("[role=alert]")) globalThis.heard.push(alert.textContent);
        }
      });
      globalThis.ear.observe(document.body, { subtree: true, childList: true, characterData: true });
    });
    await doing();
    const from = Date.now();
    let heard = [];
    while (Date.now() - from < 4000) {
      heard = await page.evaluate(() => globalThis.heard);
      if (heard.some((text) => wanted.test(text))) break;
      await page.waitForTimeout(50);
    }
    check(heard.some((text) => wanted.test(text)), `${what}: nothing like ${wanted} is said, but ${JSON.stringify(heard.slice(-3)).slice(0, 200)}`);
  };
  await open(app, page, `/cut/${id}/walk`);
  await page.getByText("Section 3 of").waitFor();
  await hears("Done", () => page.getByRole("button", { name: /^Done/ }).click(), /Section 4|Left|Right|Temple|Front|Back|Behind/);
  await hears("Back", () => page.getByRole("button", { name: "Back", exact: true }).click(), /Section 3|Left|Right|Temple|Front|Parting/);
  await page.getByRole("button", { name: "Result", exact: true }).click();
  await hears("it came out longer", () => page.getByRole("button", { name: /Longer/ }).click(), /later sections? becomes?|Nothing later|Put down/);
  await open(app, page, "/keep");
  await hears("saved", () => page.getByRole("button", { name: "Save everything as a file" }).click(), /Saved among the downloads/);
  await open(app, page, "/take");
  await page.locator("#take-link").fill("hello");
  await hears("refused", () => page.getByRole("button", { name: "Look at it" }).click(), /not a plan|damaged or cut short/);
  await newExample(app, page);
  await hears("a tape that does not read", async () => {
    await page.getByRole("textbox", { name: "Around the head" }).fill("long");
    await page.getByRole("textbox", { name: "Around the head" }).press("Tab");
  }, /long|number|read/i);
  await toPlan(page);
  for (const error of seen.errors) check(false, error);
  await context.close();
  return { tries, found };
}
