import AxeBuilder from "@axe-core/playwright";
import type { Page } from "@playwright/test";

/** WCAG 2.2, levels A and AA, as far as a program can see (axe-core's tags for them). */
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** In the page itself: the other way opens a window of its own for each answer. No page here has frames. */
const axeOf = (page: Page) => new AxeBuilder({ page }).options({ resultTypes: ["violations"] }).setLegacyMode(true);
/** What may differ when the page is dark and narrow; all else is the same page. The colour pairs are held by tests/ui/contrast.test.ts too. */
const BY_LOOK = ["color-contrast", "target-size", "scrollable-region-focusable", "link-in-text-block"];

export interface Look {
  readonly colorScheme: "light" | "dark";
  readonly width?: number;
}

/** Serious faults of the page in sight: all rules in the first look, in each further one those that it can change. */
export async function faultsIn(page: Page, name: string, looks: readonly Look[]): Promise<string[]> {
  const faults: string[] = [];
  for (const [index, { colorScheme, width }] of looks.entries()) {
    await page.emulateMedia({ colorScheme });
    if (width) await page.setViewportSize({ width, height: 900 });
    const axe = index === 0 ? axeOf(page).withTags(TAGS) : axeOf(page).withRules(BY_LOOK);
    const { violations } = await axe.analyze();
    for (const { id, impact, nodes } of violations) {
      if (impact !== "serious" && impact !== "critical") continue;
      for (const { target, failureSummary } of nodes)
        faults.push(`${name} ${colorScheme} ${id}: ${target.join(" ")} ${failureSummary?.split("\n")[1]?.trim()}`);
    }
  }
  return faults;
}

/** Controls of the tablet's page in sight that a glove would miss: less than 56 pixels high. A link inside a sentence is read, not pressed. */
export function smallControls(page: Page, name: string): Promise<string[]> {
  return page.evaluate((where) => {
    const controls = document.querySelectorAll<HTMLElement>("button, a, input, select, textarea, summary");
    return [...controls].flatMap((control) => {
      const inLabel = control.matches("[type=radio], [type=checkbox], [type=file]");
      const pressed = (inLabel && control.closest("label")) || control;
      if (!pressed.checkVisibility() || pressed.matches("p a, li a:not([class]), .sr-only")) return [];
      const { height, width } = pressed.getBoundingClientRect();
      if (height >= 55.5 && width >= 44) return [];
      const words = pressed.getAttribute("aria-label") ?? pressed.textContent?.trim().slice(0, 40);
      return [`${where}: <${pressed.tagName.toLowerCase()}> "${words}" ${Math.round(width)} x ${Math.round(height)}`];
    });
  }, name);
}
