import "./enter.mjs";

const { testEverything } = await import("./test-everything.ts");
const { exitOnFailure } = await import("./step.ts");
await exitOnFailure(testEverything);
