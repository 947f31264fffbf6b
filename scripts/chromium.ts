import { accessSync, constants, existsSync, readFileSync } from "node:fs";
import { chromium } from "@playwright/test";
import { run, StepFailure } from "./step";

/** The same browser without what draws its windows: a journey takes half of its processor time. */
const HEADLESS_SHELL = "/usr/bin/chromium-headless-shell";
const USUAL_PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

/** The Chromium to measure and to take pictures with: the one `CHROMIUM_PATH` names, Playwright's own, or the machine's. */
export function findChromium(): string | null {
  return firstOf([...USUAL_PLACES, HEADLESS_SHELL]);
}

/** The Chromium for journeys: as `findChromium`, but one without windows where there is one. */
export function findJourneyChromium(): string | null {
  return firstOf([HEADLESS_SHELL, ...USUAL_PLACES]);
}

function firstOf(places: readonly string[]): string | null {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (isProgram(named)) return named;
    throw new StepFailure(`CHROMIUM_PATH names ${named}, which cannot be run.`);
  }
  return [chromium.executablePath(), ...places].find(isProgram) ?? null;
}

/** As `findJourneyChromium`, installing one where there is none: Debian's package as root, else Playwright's own download. */
export async function requireChromium(): Promise<string> {
  const found = findJourneyChromium() ?? (await install());
  if (!found) {
    throw new StepFailure(
      "No Chromium was found and none could be installed. Install Chromium or Google Chrome, or set CHROMIUM_PATH to its program.",
    );
  }
  console.log(`  Chromium: ${found}`);
  return found;
}

async function install(): Promise<string | null> {
  const isRoot = process.getuid?.() === 0;
  if (isRoot && isDebian()) {
    console.log("  Installing Debian's chromium …");
    const apt = { show: true, env: { DEBIAN_FRONTEND: "noninteractive" } };
    await run("apt-get", ["update", "-q"], apt);
    for (const name of ["chromium-headless-shell", "chromium"]) {
      await run("apt-get", ["install", "-y", "-q", "--no-install-recommends", name], apt);
      const found = findJourneyChromium();
      if (found) return found;
    }
  }
  console.log("  Installing Playwright's Chromium …");
  const withLibraries = isRoot && existsSync("/usr/bin/apt-get") ? ["--with-deps"] : [];
  await run(process.execPath, ["node_modules/@playwright/test/cli.js", "install", ...withLibraries, "chromium"], {
    show: true,
  });
  return findJourneyChromium();
}

/** Ubuntu's package of the same name is only a pointer to another installer. */
function isDebian(): boolean {
  return existsSync("/etc/os-release") && /^ID=debian$/m.test(readFileSync("/etc/os-release", "utf8"));
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
