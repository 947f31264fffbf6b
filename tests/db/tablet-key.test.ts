import { afterAll, beforeAll, expect, test } from "vitest";
import { tabletKey } from "@/lib/db/tablet-key";
import { withTenant } from "@/lib/db/tenant";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

test("a person's tablet key is 32 bytes, the same each time, and nobody else's", async () => {
  const { alder, birch } = database;
  const keyOf = async (company: typeof alder.company, person: typeof alder.technician.personId) =>
    Buffer.from(await withTenant(company, (tx) => tabletKey(tx, person))).toString("hex");
  const [key, again, other, elsewhere] = [
    await keyOf(alder.company, alder.technician.personId),
    await keyOf(alder.company, alder.technician.personId),
    await keyOf(alder.company, alder.dispatcher.personId),
    await keyOf(birch.company, birch.technician.personId),
  ];
  expect(key).toHaveLength(64);
  expect(again).toBe(key);
  expect(new Set([key, other, elsewhere]).size).toBe(3);
});

test("a key is not made for somebody of another company", async () => {
  const { alder, birch } = database;
  await expect(withTenant(alder.company, (tx) => tabletKey(tx, birch.technician.personId))).rejects.toThrow();
});
