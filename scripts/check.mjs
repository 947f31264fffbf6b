import "./enter.mjs";

const { check } = await import("./check-code.ts");
const { exitOnFailure } = await import("./step.ts");
await exitOnFailure(async () => {
  const { failures } = await check();
  console.log(failures.length === 0 ? "\nEverything holds." : `\nFailed: ${failures.join(", ")}.`);
  if (failures.length > 0) process.exitCode = 1;
});
