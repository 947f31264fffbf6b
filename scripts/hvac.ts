import { answerLines } from "./hvac/answer-lines";
import { COMMANDS } from "./hvac/commands";

const SOME_LINES_REFUSED = 2;
const USAGE_ERROR = 64;

const [name, ...extra] = process.argv.slice(2);
// The reader may have seen enough: head closes its end, and that is no failure of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => process.exit(error.code === "EPIPE" ? 0 : 1));

const command = name !== undefined && Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
const asksHelp = extra.length === 1 && ["--help", "-h"].includes(extra[0]!);

if (extra.length === 0 && (name === "--help" || name === "-h")) {
  console.log(help());
} else if (command !== undefined && asksHelp) {
  console.log(`${name}: ${command.says}\nfields of a line, [optional]: ${command.fields.join(", ")}`);
} else if (command === undefined || extra.length > 0) {
  console.error(name === undefined ? "Which command?" : `Unknown command: ${[name, ...extra].join(" ")}`);
  console.error(help());
  process.exitCode = USAGE_ERROR;
} else {
  const refused = await answerLines(process.stdin, process.stdout, command.answer);
  process.exitCode = refused > 0 ? SOME_LINES_REFUSED : 0;
}

function help(): string {
  const width = Math.max(...Object.keys(COMMANDS).map(({ length }) => length));
  return [
    "npm run -s hvac -- COMMAND < in.jsonl > out.jsonl",
    "One JSON object a line in, one a line out, in the same order; units stand in the field names.",
    "",
    ...Object.entries(COMMANDS).map(([command, { says }]) => `  ${command.padEnd(width)}  ${says}`),
    "",
    "COMMAND --help lists the fields of a line. Status 2: some line was refused. Status 64: unknown command.",
  ].join("\n");
}
