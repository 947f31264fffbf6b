import "./enter.mjs";

const { playFaults } = await import("./play-faults.ts");
const { exitOnFailure } = await import("./step.ts");
await exitOnFailure(() => playFaults(process.argv.slice(2)));
