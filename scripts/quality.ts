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
  const text = readFileSync(STANDARD_INPUT, "utf8").replace(/^\uFEFF/, ""); // a mark of byte order says nothing in UTF-8
  try {
    return parseCohort(JSON.parse(text));
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    const message = `No JSON${placeIn(text, error.message)}: ${error.message}`;
    return { ok: false, error: { code: "malformed-cohort", path: [], message } } as const;
  }
}

/** Line and column the parser's message points at; where it points nowhere the text ended too early. */
function placeIn(text: string, message: string): string {
  if (/line \d+/.test(message)) return ""; // newer runtimes say it themselves
  const at = /position (\d+)/.exec(message)?.[1];
  if (at === undefined && !message.includes("end of JSON")) return "";
  const lines = text.slice(0, at === undefined ? undefined : Number(at)).split("\n");
  return ` at line ${lines.length}, column ${lines.at(-1)!.length + 1}`;
}
