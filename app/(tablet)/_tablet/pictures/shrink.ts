import { MAX_PICTURE_BYTES, withoutMetadata } from "@/lib/sync/picture";

const LONGEST_SIDE_PX = 1600;
const ENOUGH_BYTES = 400_000;
const QUALITIES = [0.82, 0.7, 0.55, 0.4];

/** A photo small enough to send from a roof, upright, and without what the camera wrote into it; null when this browser cannot read it. */
export async function shrinkPhoto(file: Blob): Promise<Uint8Array<ArrayBuffer> | null> {
  const image = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => null);
  if (image === null) return null;
  const scale = Math.min(1, LONGEST_SIDE_PX / Math.max(image.width, image.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(image.width * scale));
  canvas.height = Math.max(1, Math.round(image.height * scale));
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  let smallest: Uint8Array<ArrayBuffer> | null = null;
  for (const quality of QUALITIES) {
    smallest = await bytesOf(canvas, "image/jpeg", quality);
    if (smallest && smallest.length <= ENOUGH_BYTES) break;
  }
  return smallest && smallest.length <= MAX_PICTURE_BYTES ? smallest : null;
}

/** What is drawn on a canvas, as a plain picture. */
export async function bytesOf(
  canvas: HTMLCanvasElement,
  type: "image/jpeg" | "image/png",
  quality?: number,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const blob = await new Promise<Blob | null>((done) => canvas.toBlob(done, type, quality));
  const plain = blob && withoutMetadata(new Uint8Array(await blob.arrayBuffer()));
  return plain && new Uint8Array(plain);
}
