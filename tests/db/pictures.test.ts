import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { erasePicture, findPicture, listPictures, receivePicture } from "@/lib/db/pictures";
import { withTenant } from "@/lib/db/tenant";
import { AttachmentId, type JobId } from "@/lib/ids";
import { packPicture, saltedDigest } from "@/lib/sync/picture";
import { jpeg, jpegPart, png } from "../sync/sample-pictures";
import { withConnection } from "./fresh-database";
import { anotherJob, type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let job: JobId;
let pictureId: AttachmentId;
const salt = new Uint8Array(16).fill(3);
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());
beforeEach(async () => {
  job = await anotherJob(database.alder);
  pictureId = AttachmentId.parse(uuidv7());
});
const put = (bytes: Uint8Array, at: Planted = database.alder, jobId = job) =>
  receivePicture(at.company, { jobId, pictureId, personId: at.technician.personId }, packPicture({ salt, bytes }));
const inAlder = <T>(work: Parameters<typeof withTenant<T>>[1]) => withTenant(database.alder.company, work);
const erase = () => inAlder((tx) => erasePicture(tx, job, pictureId, database.alder.supervisor.personId));

describe("a picture of a job", () => {
  test("comes back as it was sent, under the hash the log names it by, however often it is sent", async () => {
    const digest = saltedDigest({ salt, bytes: jpeg() });
    const answers = await Promise.all([put(jpeg()), put(jpeg()), put(jpeg())]);
    expect(answers).toEqual(answers.map(() => ({ ok: true, value: digest })));
    expect(await inAlder((tx) => findPicture(tx, job, pictureId))).toEqual({ bytes: jpeg(), media: "image/jpeg" });
  });

  test("never takes the place of another", async () => {
    await put(jpeg());
    expect(await put(png())).toEqual({ ok: false, error: { code: "used-otherwise" } });
  });

  test("with its place still in it is refused and nothing is written", async () => {
    const placed = jpeg(jpegPart(0xe1, new TextEncoder().encode("Exif")));
    expect(await put(placed)).toEqual({ ok: false, error: { code: "carries-metadata" } });
    expect((await inAlder((tx) => listPictures(tx, job))).size).toBe(0);
  });

  test("of another company's job is of no job, and another company finds none", async () => {
    expect(await put(jpeg(), database.birch)).toEqual({ ok: false, error: { code: "not-found" } });
    await put(jpeg());
    const seen = await withTenant(database.birch.company, (tx) => findPicture(tx, job, pictureId));
    expect(seen).toBeNull();
  });
});

describe("an erased picture", () => {
  test("is gone with its salt, keeps its hash and says who erased it; sent again it stays gone", async () => {
    await put(jpeg());
    expect(await erase()).toBe(true);
    expect(await inAlder((tx) => findPicture(tx, job, pictureId))).toBe("erased");
    expect((await put(jpeg())).ok).toBe(true);
    expect(await inAlder((tx) => findPicture(tx, job, pictureId))).toBe("erased");
    expect(await erase()).toBe(false);
    await withConnection(database.adminUrl, async (admin) => {
      const { rows } = await admin.query("select * from job_picture where id = $1", [pictureId]);
      expect(rows[0]).toMatchObject({ bytes: null, salt: null, erased_by: database.alder.supervisor.personId });
      expect(rows[0].salted_digest.toString("hex")).toBe(saltedDigest({ salt, bytes: jpeg() }));
      const events = await admin.query("select detail from office_event where what = 'picture-erased'");
      expect(events.rows.at(-1).detail).toEqual({ picture: pictureId });
    });
  });
});
