import "./enter.mjs";

const { buildApp } = await import("./build-app.ts");
const { exitOnFailure } = await import("./step.ts");
await exitOnFailure(() => buildApp({ always: true }));
