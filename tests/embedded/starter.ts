import { startEmbedded } from "@/lib/embedded/server";

// A program that uses the embedded database: says how it got it, then leaves when its input ends.
const server = await startEmbedded({ projectFolder: process.cwd(), dataFolder: process.argv[2] });
console.log(
  JSON.stringify({ pid: server.pid, port: server.port, joined: server.joined, firstStart: server.firstStart }),
);
process.stdin.resume().on("end", () => server.release());
