// The steps a person takes through the app, for the tests and for taking pictures.
//
//   newExample(app, page)     from the list: makes the invented example and stands at its head
//   toPlan(page)              on to the plan, until its table stands
//   toChair(page)             to the chair, past the cautions, to the first section
//   atChair(app, page, how)   the example straight at its first section; { stop: true }: before it starts
//   faces(page)               → the names of a section's faces; one, "all", where they stand side by side
//   face(page, name)          shows a face of the section
//   done(page)                presses Done and waits for the next section, or for the end
//   offer(page, name)         → the line of a built-in cut in the library, to be tapped
//   back(page)                presses Back and waits for the section before
//   longer(page), cameOut(page)  puts down half a centimetre more; → what was put down
//   leave(page)               from the chair to the list
//   askTooMuch(page)          on the aim screen: asks for what cannot be met together
//   unpacked(text)            → a stored cut: one that is finished is kept packed
//   section(page)             → { place, count, name, number } as they stand on the screen
import { inflateSync } from "node:zlib";
import { open, worked } from "./harness.mjs";

// By node's zlib, which is not the app's.
export function unpacked(text) {
  const json = text.startsWith("~") ? inflateSync(Buffer.from(text.slice(1), "base64url")).toString() : text;
  return JSON.parse(json);
}

export async function newExample(app, page) {
  await open(app, page, "/");
  await page.getByRole("button", { name: "Try an invented example" }).click();
  await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
}

export async function toPlan(page) {
  await page.getByRole("link", { name: "On to the plan" }).click();
  await page.getByRole("table").first().waitFor();
  await worked(page);
}

// On the aim screen: asks for what cannot be met together.
export async function askTooMuch(page) {
  await page.getByRole("checkbox", { name: /^No more off than/ }).check();
  const most = page.getByRole("textbox", { name: "No more off than" });
  await most.fill("1");
  await most.press("Enter");
  await page.getByRole("checkbox", { name: /^Front pieces/ }).check();
  await page.getByLabel("Front pieces: landmark").selectOption("cheekbone");
}

export async function toChair(page, { stop = false } = {}) {
  await page.getByRole("link", { name: "To the chair" }).click();
  await page.getByRole("button", { name: "Start" }).waitFor();
  if (stop) return;
  await page.getByRole("button", { name: "Start" }).click();
  await page.getByText(/^Section 1 of/).waitFor();
}

// By its own title: the picture beside it carries the name too.
export function offer(page, name) {
  return page.locator(".offer .title").getByText(name);
}

export async function section(page) {
  const text = await page.getByText(/^Section \d+ of \d+$/).innerText();
  const [place, count] = text.match(/\d+/g).map(Number);
  const name = await page.locator(".section-name .near").textContent();
  const number = Number.parseFloat(await page.locator(".target-number").textContent());
  return { place, count, name, number };
}

export async function done(page) {
  const { place, count } = await section(page);
  await page.getByRole("button", { name: /^Done/ }).click();
  const next = place === count
    ? page.getByRole("heading", { level: 1, name: "Planned and cut" })
    : page.getByText(`Section ${place + 1} of ${count}`);
  await next.waitFor();
}

export async function atChair(app, page, how) {
  await newExample(app, page);
  await toPlan(page);
  await toChair(page, how);
}

const wide = (page) => page.viewportSize().width >= 768;

export async function faces(page) {
  return wide(page) ? ["all"] : ["Length", "Hold", "How", "Result"];
}

export async function face(page, name) {
  if (wide(page) || name === "all") return;
  await page.getByRole("button", { name, exact: true }).click();
}

// Goes one section back.
export async function back(page) {
  const { place, count } = await section(page);
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await page.getByText(`Section ${place - 1} of ${count}`).waitFor();
}

// What the section on the screen was put down as having come out at, as it is shown; "" if nothing.
export async function cameOut(page) {
  const put = page.locator(".came-out").getByRole("button", { name: "Take it back", includeHidden: true });
  return (await put.count()) > 0 ? page.locator("#came-out").inputValue() : "";
}

// Presses the stepper of what the section came out at, until the new value stands there.
export async function longer(page) {
  const before = await cameOut(page);
  await face(page, "Result");
  await page.getByRole("button", { name: "Longer" }).click();
  await page.getByRole("button", { name: "Take it back" }).waitFor();
  await page.waitForFunction((old) => document.getElementById("came-out").value !== old, before);
}

// From the chair to the list.
export async function leave(page) {
  await page.getByRole("button", { name: "Overview" }).click();
  await page.getByRole("link", { name: "Your cuts" }).click();
  await page.getByRole("heading", { level: 1, name: "Your cuts" }).waitFor();
}
