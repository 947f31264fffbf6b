import "./enter.mjs";

const { start } = await import("./start-here.ts");
await start({ development: process.argv.includes("--dev") });
