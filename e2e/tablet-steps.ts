import { expect, type Locator, type Page } from "@playwright/test";

/*
 * What a technician does on the tablet, by role and label as a person finds it. Numbers are given in the units the pad
 * opens with: psig, micron, F, lb.
 */

const byKeys = new WeakSet<Page>();

/** From here on nothing on this page is touched: every control is brought into focus and worked by its keys. */
export function workByKeys(page: Page) {
  byKeys.add(page);
}

/** Presses, or chooses, by finger or by keys. */
async function act(page: Page, control: Locator): Promise<void> {
  if (!byKeys.has(page)) return control.click();
  const isChoice = (await control.getAttribute("type")) === "radio";
  await expect(async () => {
    await control.focus(); // a step that has only just come takes the focus to its beginning once
    await page.waitForTimeout(50);
    await expect(control).toBeFocused({ timeout: 200 });
  }).toPass();
  await control.press(isChoice ? "Space" : "Enter");
}

/**
 * Goes through the page in sight by the Tab key alone, from its top to its end: the names of what was reached, and what of it showed
 * no focus. A place that lets nobody out would never end.
 */
export async function walkByTab(page: Page): Promise<{ reached: string[]; unseen: string[] }> {
  await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    window.getSelection()?.removeAllRanges();
    document.body.tabIndex = -1;
    document.body.focus();
    document.body.removeAttribute("tabindex");
  });
  const reached: string[] = [];
  const unseen: string[] = [];
  for (let stop = 0; stop < 200; stop += 1) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate(() => {
      const here = document.activeElement as HTMLElement | null;
      if (!here || here === document.body) return null;
      // The parts inside a date's field show their own.
      const shows =
        here.matches("[type=date], [type=datetime-local]") ||
        [here, here.closest("label")].some((each) => {
          if (!each) return false;
          const { outlineStyle, outlineWidth } = getComputedStyle(each);
          return outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2;
        });
      const name = here.getAttribute("aria-label") ?? here.closest("label")?.textContent ?? here.textContent ?? "";
      return { name: name.trim().replace(/\s+/g, " "), shows };
    });
    if (at === null) break;
    reached.push(at.name);
    if (!at.shows) unseen.push(at.name);
  }
  return { reached, unseen };
}

export async function goToStep(page: Page, name: string | RegExp) {
  await act(page, page.getByRole("navigation", { name: "Steps of this job" }).getByRole("button", { name }));
}

export async function answer(page: Page, statement: string | RegExp, word: string) {
  const group = page.getByRole("group", { name: statement });
  if (byKeys.has(page)) await act(page, group.getByRole("radio", { name: word, exact: true }));
  else await group.getByText(word, { exact: true }).click();
}

export async function choose(page: Page, group: string | RegExp, option: string | RegExp) {
  const radio = page.getByRole("group", { name: group }).getByRole("radio", { name: option });
  if (byKeys.has(page)) await act(page, radio);
  else await radio.check();
  await expect(radio).toBeChecked();
}

/** Types a number on the pad of a field; `unit` is pressed on the pad first. */
export async function enter(page: Page, field: string | RegExp, value: number, unit?: string, at = 0) {
  await act(page, page.getByRole("main").getByRole("button", { name: field }).nth(at));
  await typeOnPad(page, page.getByRole("dialog"), value, unit);
}

async function typeOnPad(page: Page, pad: Locator, value: number, unit?: string) {
  if (unit) await act(page, pad.getByRole("button", { name: unit, exact: true }));
  const keep = pad.getByRole("button", { name: /^(Enter|Keep|Record)$/ });
  await expect(async () => {
    await pad.getByRole("textbox").fill(String(value)); // a unit chosen just before may still empty the line
    await expect(keep).toBeEnabled({ timeout: 500 });
  }).toPass();
  await act(page, keep);
  await expect(pad).toBeHidden();
}

export async function press(page: Page, name: string | RegExp) {
  await act(page, page.getByRole("button", { name }));
}

/** Records the step in sight and expects it to be settled. */
export async function recordSettled(page: Page, verb: string | RegExp) {
  await press(page, verb);
  await expect(page.getByRole("heading", { level: 1, name: /is settled/ })).toBeVisible();
}

/** Goes on to the step that is open now. */
export async function goOn(page: Page) {
  await press(page, /^Go on:/);
}

/** Pastes a table of readings where the step asks for them. */
export async function pasteReadings(page: Page, table: string) {
  await press(page, "From a file or a paste");
  const dialog = page.getByRole("dialog");
  // Pasted, not typed: a browser puts six hundred lines into a field one by one, for seconds on a busy machine.
  await dialog.getByLabel("Or paste the table here").evaluate((field, text) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text", text);
    field.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, table);
  await act(page, dialog.getByRole("button", { name: "Take these readings" }));
  await expect(dialog).toBeHidden();
}

/** What the customer agreed to before the circuit is opened. */
export async function agreeByPhone(page: Page, limit: string) {
  await press(page, "Record the agreement");
  const sheet = page.getByRole("dialog");
  await sheet.getByLabel("What is to be done").fill("Find and mend the leak, charge anew.");
  await sheet.getByLabel(/Spending limit/).fill(limit);
  await sheet.getByLabel("Who agreed").fill("B. Harrow for the bakery");
  await sheet.getByRole("radio", { name: "By phone" }).check();
  await sheet.getByRole("button", { name: "Record the agreement" }).click();
  await expect(page.getByText(`Up to ${limit}.00 USD, B. Harrow for the bakery, by phone`)).toBeVisible();
}

export async function makeSafe(page: Page) {
  for (const statement of [
    "Locked out and tagged",
    "Tested dead",
    "Stored energy discharged",
    "Area ventilated",
    "Ignition sources under control",
    "Refrigerant identified",
    "Design pressures read off the nameplate",
  ]) {
    await answer(page, statement, "Yes");
  }
  await recordSettled(page, "It is safe: record");
}

/** Recovery to 0 psig with one cylinder that is not in the register. */
export async function recover(page: Page, grossBeforeLb = 30, grossAfterLb = 33.5) {
  await choose(page, "How it is recovered", /Recovery machine/);
  await chooseTool(page, "Recovery machine");
  await choose(page, "The machine was made", /On or after/);
  if (await page.getByRole("group", { name: "Rated for flammables" }).isVisible()) {
    await answer(page, "Rated for flammables", "Yes");
  }
  await enter(page, /Barometer here/, 101.3, "kPa");
  await enter(page, /Lowest pressure reached/, -2, "psig");
  await enter(page, /Waited with the machine off/, 5);
  await enter(page, /Pressure after the wait/, -1, "psig");
  await page.getByLabel("Put a cylinder on the scale").selectOption({ label: "One that is not in the register" });
  await page.getByLabel("Number on it").fill("RC-17");
  await enter(page, /Water capacity stamped/, 47.7, "lb");
  await enter(page, /Tare stamped/, 28, "lb");
  await page.getByLabel("Last requalified, year and month").fill("2026-01");
  await answer(page, "Dented, corroded or unmarked", "No");
  await answer(page, "Marked for flammables", "Yes");
  await answer(page, "Disposable", "No");
  await enter(page, /Gross before/, grossBeforeLb, "lb");
  await enter(page, /Gross now or after/, grossAfterLb, "lb");
  await recordSettled(page, "Record the recovery");
}

/** A photo as a camera makes one: larger than is sent, and saying where it was taken. */
export async function takePhoto(page: Page, place: string) {
  const bytes = await page.evaluate(async () => {
    const canvas = document.createElement("canvas");
    [canvas.width, canvas.height] = [2400, 1800];
    const pen = canvas.getContext("2d")!;
    for (const [index, colour] of ["#7a5230", "#b87333", "#d9a066"].entries()) {
      pen.fillStyle = colour;
      pen.fillRect(0, index * 600, 2400, 600);
    }
    const blob = await new Promise<Blob>((done) => canvas.toBlob((made) => done(made!), "image/jpeg"));
    return [...new Uint8Array(await blob.arrayBuffer())];
  });
  const said = Buffer.from(`Exif\0\0${place}`);
  const part = Buffer.from([0xff, 0xe1, 0, said.length + 2, ...said]);
  const buffer = Buffer.concat([Buffer.from(bytes.slice(0, 2)), part, Buffer.from(bytes.slice(2))]);
  await page.getByLabel("Take a photo").setInputFiles({ name: "joint.jpg", mimeType: "image/jpeg", buffer });
  await expect(page.getByRole("heading", { name: /^Photos, \d+/ })).toBeVisible();
}

export async function openAndRepair(page: Page, joints: readonly string[] = ["Liquid drier in", "Liquid drier out"]) {
  await press(page, "Opened now");
  await press(page, "Closed now");
  await answer(page, "Open ends kept capped", "Yes");
  await page.getByLabel("What was done").fill("Leaking flare cut out, drier changed.");
  await answer(page, /Compressor, condenser, evaporator/, "No");
  for (const joint of joints) await press(page, `+ ${joint}`);
  await choose(page, "Brazing", "With nitrogen flowing");
  await choose(page, "New drier", "Liquid line");
  await choose(page, "What was found inside", "Clean");
  await choose(page, "Acid test of the oil", "Clean");
  await recordSettled(page, "Record the repair");
}

/** A nitrogen test from pasted readings at the pressure given, psig. */
export async function pressureTest(page: Page, readings: string) {
  await choose(page, "Gas", "Dry nitrogen");
  await answer(page, "The low side is part of the test", "Yes");
  await answer(page, "Raised in steps, listened at each", "Yes");
  await answer(page, "Nitrogen cylinder closed and disconnected", "Yes");
  await pasteReadings(page, readings);
  await chooseTool(page, "Pressure gauge");
  await enter(page, /Smallest step of the gauge/, 0.7, "kPa");
  await enter(page, /Accuracy of the gauge/, 0.5);
  await enterIfEmpty(page, /Internal volume/, 6);
  await recordSettled(page, "Record the pressure test");
}

export async function leakCheck(page: Page, photoOf: string | null = null) {
  await page.getByLabel("Method").selectOption("electronic");
  await page.getByLabel("Instrument or solution").fill("Detector D1");
  await enter(page, /Smallest leak it shows/, 3, "g/year");
  for (const tight of await page.getByRole("radio", { name: "Tight" }).all()) {
    if (byKeys.has(page)) await act(page, tight);
    else await tight.check({ force: true });
  }
  if (photoOf) {
    await takePhoto(page, "51 N 7 E");
    await page.getByLabel("Photo 1 shows").selectOption(photoOf);
  }
  await recordSettled(page, "Record the leak check");
}

export async function evacuate(page: Page, readings: string) {
  await answer(page, "Valve cores out", "Yes");
  await choose(page, "The gauge sits", /On the system/);
  await choose(page, "Pump oil", "Fresh");
  await pasteReadings(page, readings);
  await act(page, page.getByRole("button", { name: /^Now ?: Pump started$/ }));
  await chooseTool(page, "Vacuum gauge");
  await chooseTool(page, "Pump");
  await enterIfEmpty(page, /Smallest step of the gauge/, 1, "micron");
  await enterIfEmpty(page, /Accuracy of the gauge/, 5);
  await press(page, "Record the evacuation");
}

export async function hold(page: Page, readings: string) {
  await answer(page, "The valve to the pump is closed", "Yes");
  await choose(page, "The gauge sits", /On the system/);
  await enter(page, /Coldest wall of the circuit/, 21, "°C");
  await pasteReadings(page, readings);
  await enterIfEmpty(page, /Internal volume/, 6);
}

export async function chargeByNameplate(page: Page, chargeLb: number) {
  await choose(page, "The vacuum was broken with", /Liquid, metered in/);
  await answer(page, "The compressor stayed dead under vacuum", "Yes");
  await choose(page, "Charged by", "The nameplate");
  await enter(page, /Charge on the nameplate/, chargeLb, "lb");
  await chooseTool(page, "Scale");
  await enterIfEmpty(page, /Smallest step of the scale/, 0.01, "lb");
  await enter(page, /Net mass into the circuit/, chargeLb, "lb");
  await recordSettled(page, "Record the charge");
}

export async function coresAndCaps(page: Page) {
  for (const statement of ["Valve cores back in", "Caps on, with their seals", "Caps tightened"]) {
    await answer(page, statement, "Yes");
  }
  await choose(page, "Method", "Bubbles");
  await page.getByLabel("Instrument or solution").fill("Leak solution");
  await choose(page, "Result", "Tight");
  await recordSettled(page, "Record cores and caps");
}

export async function performanceCheck(page: Page) {
  await enter(page, /It has run for/, 20);
  await enter(page, /Air outdoors/, 30, "°C");
  await choose(page, "Metering device", /Expansion valve/);
  await press(page, "Read the liquid line");
  await enter(page, /^Pressure/, 365, "psig");
  await enter(page, /Pipe temperature/, 39, "°C");
  await enter(page, /Return air/, 24, "°C");
  await enter(page, /Supply air/, 13, "°C");
  await recordSettled(page, "Record the performance check");
}

export async function signRecords(page: Page, customer: string | null = null) {
  await page.getByLabel(/Your certificate/).fill("Universal INV-4471");
  await answer(page, "Nobody was there to sign for the customer", customer ? "No" : "Yes");
  if (customer) {
    await page.getByLabel("Or the name, typed").fill(customer);
    await press(page, "Keep this signature");
    await expect(page.getByRole("img", { name: "Signature for the customer" })).toBeVisible();
  }
  await answer(page, "Label left on the unit", "Yes");
  if (await page.getByLabel("Initial test made on").isVisible()) {
    await page.getByLabel("Initial test made on").fill("2026-01-05");
    await answer(page, "It passed", "Yes");
    await page.getByLabel("Follow-up test due by").fill("2026-01-15");
  }
  await recordSettled(page, "Sign for the work");
}

export async function closeJob(page: Page) {
  await goToStep(page, /Close the job/);
  await act(page, page.getByRole("contentinfo").getByRole("button", { name: "Close the job" }));
  await expect(page.getByRole("heading", { level: 1, name: "The job is closed." })).toBeVisible();
}

/** Takes the first tool of the company's register, or names another one where it has none. */
export async function chooseTool(page: Page, label: string) {
  const list = page.getByRole("combobox", { name: label, exact: true });
  if (await list.isVisible()) {
    await list.selectOption({ index: 1 });
    if ((await list.inputValue()) !== "other") return;
    await page.getByLabel("Which one").last().fill(`${label} 1`);
    return;
  }
  await page.getByRole("textbox", { name: label, exact: true }).fill(`${label} 1`);
}

export async function enterIfEmpty(page: Page, field: RegExp, value: number, unit?: string) {
  const button = page.getByRole("main").getByRole("button", { name: field }).first();
  if (/Enter |Not known/.test((await button.textContent()) ?? "")) await enter(page, field, value, unit);
}
