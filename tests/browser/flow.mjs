// The steps a person takes through the app, for the tests and for taking pictures.
//
//   newExample(app, page)     from the list: makes the invented example and stands at its head
//   toPlan(page)              on to the plan, until its table stands
//   toChair(page)             to the chair, past the cautions, to the first section
//   done(page)                presses Done and waits for the next section, or for the end
//   offer(page, name)         → the line of a built-in cut in the library, to be tapped
//   askTooMuch(page)          on the aim screen: asks for what cannot be met together
//   section(page)             → { place, count, name, number } as they stand on the screen
import { open } from "./harness.mjs";

export async function newExample(app, page) {
  await open(app, page, "/");
  await page.getByRole("button", { name: "Try an invented example" }).click();
  await page.getByRole("heading", { level: 1, name: "The head" }).waitFor();
}

export async function toPlan(page) {
  await page.getByRole("link", { name: "On to the plan" }).click();
  await page.getByRole("table").waitFor();
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

export async function toChair(page) {
  await page.getByRole("link", { name: "To the chair" }).click();
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
  const name = await page.getByRole("heading", { level: 1 }).innerText();
  const number = Number.parseFloat(await page.locator(".target-number").innerText());
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

// Goes one section back.
export async function back(page) {
  const { place, count } = await section(page);
  await page.getByRole("button", { name: "Back", exact: true }).click();
  await page.getByText(`Section ${place - 1} of ${count}`).waitFor();
}

// What the section on the screen was put down as having come out at, as it is shown; "" if nothing.
export async function cameOut(page) {
  const field = page.getByLabel("Came out at");
  return (await field.count()) > 0 && (await page.getByText("Put down.").count()) > 0
    ? field.inputValue()
    : "";
}

// Presses the stepper of what the section came out at, until the new value stands there.
export async function longer(page) {
  const field = page.getByLabel("Came out at");
  const before = await cameOut(page);
  await page.getByRole("button", { name: "Longer" }).click();
  await page.getByText("Put down.").waitFor();
  await page.waitForFunction(([id, old]) => document.getElementById(id).value !== old,
    [await field.getAttribute("id"), before]);
}
