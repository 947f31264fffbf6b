import type { Page } from "@playwright/test";

/** Buttons and links of the page in sight that are heard alike within the same group, list entry or region. */
export async function repeatedNames(page: Page, step: string): Promise<string[]> {
  const snapshot = await page.locator("body").ariaSnapshot();
  return listRepeated(snapshot).map((name) => `${step}: "${name}" is heard twice in one place`);
}

/** Names said twice in an aria snapshot, where nothing around them tells them apart. */
export function listRepeated(snapshot: string): string[] {
  const around: { indent: number; place: string }[] = [];
  const heard = new Set<string>();
  const repeated: string[] = [];
  for (const [index, line] of snapshot.split("\n").entries()) {
    const [, indent = "", role = "", name = ""] = /^( *)- '?(\w+)(?: "((?:[^"\\]|\\.)*)")?/.exec(line) ?? [];
    while (around.length > 0 && around.at(-1)!.indent >= indent.length) around.pop();
    if (role === "button" || role === "link") {
      const place = [...around.map((each) => each.place), role, name].join(" › ");
      if (heard.has(place)) repeated.push(name);
      heard.add(place);
    }
    const isEntry = role === "listitem"; // told apart by where it stands
    if (isEntry || name !== "") around.push({ indent: indent.length, place: isEntry ? `entry ${index}` : name });
  }
  return repeated;
}
