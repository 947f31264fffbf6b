import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  MAX_PICTURE_BYTES,
  mediaOf,
  packPicture,
  saltedDigest,
  unpackPicture,
  withoutMetadata,
} from "@/lib/sync/picture";
import { jpeg, jpegPart, png, pngPart } from "./sample-pictures";

const salt = new Uint8Array(16).fill(7);
const text = (words: string) => new TextEncoder().encode(words);

describe("a photo made plain", () => {
  test("loses what the camera says of place, device and comment, and keeps every part that draws it", () => {
    const camera = [
      jpegPart(0xe1, text("Exif\0\0 place")),
      jpegPart(0xed, text("maker")),
      jpegPart(0xfe, text("hello")),
    ];
    const profile = jpegPart(0xe2, text("ICC_PROFILE\0"));
    expect(withoutMetadata(jpeg(...camera, profile))).toEqual(jpeg(profile));
    expect(withoutMetadata(png(pngPart("eXIf", text("place")), pngPart("tEXt", text("Author"))))).toEqual(png());
  });

  test("stays what it is when it is plain already", () => {
    for (const plain of [jpeg(), png()]) expect(withoutMetadata(plain)).toEqual(plain);
  });

  test("is refused when it is cut short anywhere before its image, and never read past its end", () => {
    const whole = jpeg(jpegPart(0xe1, text("Exif")));
    const scanAt = whole.findIndex((byte, at) => byte === 0xff && whole[at + 1] === 0xda);
    for (let length = 0; length < scanAt; length += 1) expect(withoutMetadata(whole.slice(0, length))).toBeNull();
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (noise) => {
        for (const start of [[0xff, 0xd8, 0xff], [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], []])
          withoutMetadata(Uint8Array.from([...start, ...noise]));
      }),
    );
  });
});

describe("a picture on the wire", () => {
  test("comes out as it went in, and its hash needs the salt", () => {
    const bytes = jpeg();
    const out = unpackPicture(packPicture({ salt, bytes }));
    expect(out).toEqual({ ok: true, value: { salt, bytes, media: "image/jpeg" } });
    expect(saltedDigest({ salt: new Uint8Array(16), bytes })).not.toBe(saltedDigest({ salt, bytes }));
  });

  test.each([
    ["text", text("a page with <script>"), "not-a-picture"],
    ["nothing after the salt", new Uint8Array(), "not-a-picture"],
    ["a photo with its place", jpeg(jpegPart(0xe1, text("Exif"))), "carries-metadata"],
    ["a page behind a picture's first bytes", Uint8Array.from([0xff, 0xd8, 0xff, ...text("<html>")]), "not-a-picture"],
  ])("that is %s is refused", (_what, bytes, code) => {
    expect(unpackPicture(packPicture({ salt, bytes }))).toEqual({ ok: false, error: { code } });
  });

  test("over the limit is refused", () => {
    const big = new Uint8Array(MAX_PICTURE_BYTES + 1);
    big.set(jpeg());
    expect(mediaOf(big)).toBe("image/jpeg");
    expect(unpackPicture(packPicture({ salt, bytes: big }))).toEqual({ ok: false, error: { code: "too-large" } });
  });
});
