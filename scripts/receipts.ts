import { readFileSync } from "node:fs";
import * as z from "zod";
import type { Entry, Stamp } from "@/lib/hvac/procedure";
import { keyIdOf, verifyReceipt } from "@/lib/sync/verify-receipt";

// npm run -s receipts < receipts-….json            checks every signature against the key in the file
// npm run -s receipts -- KEY < receipts-….json     and that it is the key noted earlier (its 32 letters)
const STANDARD_INPUT = 0;
// What is signed is taken as it stands: a later version must be able to check what an older one signed.
const signedOver = <T>() => z.custom<T>((value) => typeof value === "object" && value !== null);
const hex = (letters: number) => z.string().regex(new RegExp(`^[0-9a-f]{${letters}}$`));
const file = z.object({
  form: z.literal("dryhold-receipts-1"),
  publicKey: hex(64),
  receipts: z.array(
    z.object({
      entry: signedOver<Entry>(),
      stamp: signedOver<Stamp>(),
      signed: z.object({ key: hex(32), signature: hex(128) }),
    }),
  ),
});

const given = read();
if (given === null) {
  console.error("This is not a file of receipts.");
  process.exitCode = 2;
} else {
  const noted = process.argv[2];
  const key = keyIdOf(given.publicKey);
  const verdicts = await Promise.all(given.receipts.map((receipt) => verifyReceipt(given.publicKey, receipt)));
  const wrong = given.receipts.filter((_receipt, at) => !verdicts[at]!.ok);
  for (const { entry } of wrong) console.log(`${entry.id}  ${entry.kind}  is not what was signed`);
  console.log(
    `${given.receipts.length - wrong.length} of ${given.receipts.length} receipts hold, under the key ${key}`,
  );
  if (noted !== undefined && noted !== key) console.log(`This is not the key you noted, ${noted}.`);
  if (wrong.length > 0 || (noted !== undefined && noted !== key)) process.exitCode = 1;
}

function read() {
  try {
    return file.safeParse(JSON.parse(readFileSync(STANDARD_INPUT, "utf8"))).data ?? null;
  } catch {
    return null;
  }
}
