import { readFileSync } from "node:fs";
import { reportQuality } from "@/lib/quality";
import { parseCohort } from "@/lib/quality/schema";

// npm run -s quality < cohort.json > report.json
const MALFORMED = 2;
const STANDARD_INPUT = 0;

const cohort = readCohort();
if (cohort.ok) process.stdout.write(`${JSON.stringify(reportQuality(cohort.value))}\n`);
else {
  console.error(JSON.stringify({ error: cohort.error }));
  process.exitCode = MALFORMED;
}

function readCohort() {
  const text = readFileSync(STANDARD_INPUT, "utf8");
  try {
    return parseCohort(JSON.parse(text));
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return { ok: false, error: { code: "malformed-cohort", path: [], message: `No JSON: ${error.message}` } } as const;
  }
}
