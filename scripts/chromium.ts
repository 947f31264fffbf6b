import { accessSync, constants, existsSync, readFileSync } from "node:fs";
import { chromium } from "@playwright/test";
import { run, StepFailure } from "./step";

const USUAL_PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
];

/** The Chromium to test with: the one `CHROMIUM_PATH` names, Playwright's own, or the machine's. */
export function findChromium(): string | null {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (isProgram(named)) return named;
    throw new StepFailure(`CHROMIUM_PATH names ${named}, which cannot be run.`);
  }
  return [chromium.executablePath(), ...USUAL_PLACES].find(isProgram) ?? null;
}

/** As `findChromium`, installing one where there is none: Debian's package as root, else Playwright's own download. */
export async function requireChromium(): Promise<string> {
  const found = findChromium() ?? (await install());
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
    await run("apt-get", ["install", "-y", "-q", "--no-install-recommends", "chromium"], apt);
    const found = findChromium();
    if (found) return found;
  }
  console.log("  Installing Playwright's Chromium …");
  const withLibraries = isRoot && existsSync("/usr/bin/apt-get") ? ["--with-deps"] : [];
  await run(process.execPath, ["node_modules/@playwright/test/cli.js", "install", ...withLibraries, "chromium"], {
    show: true,
  });
  return findChromium();
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
