import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, concatBytes } from "@noble/hashes/utils.js";
import { err, ok, type Result } from "@/lib/result";

/** The most a picture may have, in bytes; the device makes it smaller first. */
export const MAX_PICTURE_BYTES = 1_000_000;
export const SALT_BYTES = 16;

export type PictureMedia = "image/jpeg" | "image/png";
export type PictureProblem = { code: "not-a-picture" } | { code: "too-large" } | { code: "carries-metadata" };

/** A picture on the wire: sixteen bytes of salt, then the picture as it is. */
export interface SaltedPicture {
  readonly salt: Uint8Array;
  readonly bytes: Uint8Array;
}

/** The hash a log names a picture by, in hex. Without the salt nobody can try pictures against it. @source FIPS 180-4 (SHA-256) */
export function saltedDigest({ salt, bytes }: SaltedPicture): string {
  return bytesToHex(sha256(concatBytes(salt, bytes)));
}

export function packPicture({ salt, bytes }: SaltedPicture): Uint8Array<ArrayBuffer> {
  return new Uint8Array(concatBytes(salt, bytes));
}

/** A picture taken from the wire, or why it is none: it may be a JPEG or PNG that says nothing of where and with what it was taken. */
export function unpackPicture(packed: Uint8Array): Result<SaltedPicture & { media: PictureMedia }, PictureProblem> {
  const [salt, bytes] = [packed.slice(0, SALT_BYTES), packed.slice(SALT_BYTES)];
  const media = mediaOf(bytes);
  if (media === null) return err({ code: "not-a-picture" });
  if (bytes.length > MAX_PICTURE_BYTES) return err({ code: "too-large" });
  const plain = withoutMetadata(bytes);
  if (plain === null) return err({ code: "not-a-picture" });
  if (plain.length !== bytes.length) return err({ code: "carries-metadata" });
  return ok({ salt, bytes, media });
}

/** What kind of picture the first bytes announce; null for anything else. @source ITU-T T.81 (JPEG), ISO/IEC 15948 (PNG) signatures */
export function mediaOf(bytes: Uint8Array): PictureMedia | null {
  const starts = (...signature: number[]) => signature.every((byte, index) => bytes[index] === byte);
  if (starts(0xff, 0xd8, 0xff)) return "image/jpeg";
  return starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a) ? "image/png" : null;
}

/**
 * The same picture without what a camera writes into it (place, time, device, comment); null when it cannot be read.
 *
 * @source ITU-T T.81 annex B for the segments of a JPEG; ISO/IEC 15948 clause 5 for the chunks of a PNG
 */
export function withoutMetadata(bytes: Uint8Array): Uint8Array | null {
  const media = mediaOf(bytes);
  if (media === null) return null;
  return media === "image/jpeg" ? plainJpeg(bytes) : plainPng(bytes);
}

/** JFIF's own header and a colour profile stay; every other application's part and the comments go. */
const KEPT_APPLICATION_PARTS = [0xe0, 0xe2, 0xee];
const COMMENT = 0xfe;
const SCAN = 0xda;

function plainJpeg(bytes: Uint8Array): Uint8Array | null {
  const kept = [bytes.subarray(0, 2)];
  for (let at = 2; ; ) {
    const marker = bytes[at + 1];
    if (bytes[at] !== 0xff || marker === undefined) return null;
    if (marker === SCAN) {
      kept.push(bytes.subarray(at));
      return concatBytes(...kept);
    }
    const length = bytesAt(bytes, at + 2, 2);
    if (length === null || length < 2 || at + 2 + length > bytes.length) return null;
    const isApplication = marker >= 0xe0 && marker <= 0xef;
    if (marker !== COMMENT && (!isApplication || KEPT_APPLICATION_PARTS.includes(marker)))
      kept.push(bytes.subarray(at, at + 2 + length));
    at += 2 + length;
  }
}

const PNG_SIGNATURE = 8;
const PNG_KEPT = ["IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "sBIT"];

function plainPng(bytes: Uint8Array): Uint8Array | null {
  const kept = [bytes.subarray(0, PNG_SIGNATURE)];
  for (let at = PNG_SIGNATURE; at < bytes.length; ) {
    const length = bytesAt(bytes, at, 4);
    if (length === null || at + 12 + length > bytes.length) return null;
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    if (PNG_KEPT.includes(name)) kept.push(bytes.subarray(at, at + 12 + length));
    at += 12 + length;
    if (name === "IEND") return concatBytes(...kept);
  }
  return null;
}

function bytesAt(bytes: Uint8Array, at: number, count: number): number | null {
  if (at + count > bytes.length) return null;
  return bytes.subarray(at, at + count).reduce((sum, byte) => sum * 256 + byte, 0);
}
