import { readdirSync } from "node:fs";
import { type Figure, figureLine } from "./figure";

// Measures what bench/ holds, one file after the other; `--only name` picks files whose name contains it.
const onlyAt = process.argv.indexOf("--only");
const only = onlyAt === -1 ? "" : (process.argv[onlyAt + 1] ?? "");
const files = readdirSync("bench")
  .filter(
    (file) =>
      /^[a-z].*\.ts$/.test(file) &&
      file !== "run.ts" &&
      file !== "figure.ts" &&
      file !== "serve-tablet.ts" &&
      file.includes(only),
  )
  .sort();
if (files.length === 0) throw new Error(`No measurement in bench/ is called like "${only}".`);

let missed = 0;
for (const file of files) {
  const measures = Object.entries<unknown>(await import(`./${file}`)).filter(([name]) => name.startsWith("bench"));
  for (const [, measure] of measures) {
    console.log(`\n${file.replace(/\.ts$/, "")}`);
    for (const figure of await (measure as () => Promise<readonly Figure[]>)()) {
      console.log(`  ${figureLine(figure)}`);
      if (figure.atMost !== undefined && figure.value > figure.atMost) missed += 1;
    }
  }
}
console.log(missed === 0 ? "\nEvery limit was kept." : `\n${missed} limits were missed.`);
if (missed > 0) process.exitCode = 1;
