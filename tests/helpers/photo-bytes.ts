/** A JPEG of 1 by 1 pixel in its parts (ITU-T T.81, annex B): start, frame, scan, end. */
const START = [0xff, 0xd8];
const JFIF = [0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46, 0, 1, 1, 0, 0, 1, 0, 1, 0, 0];
const FRAME = [0xff, 0xc0, 0, 11, 8, 0, 1, 0, 1, 1, 1, 0x11, 0];
const SCAN = [0xff, 0xda, 0, 8, 1, 1, 0, 0, 0x3f, 0];
const END = [0xff, 0xd9];

/**
 * The bytes of a photo as the site takes it.
 * @param grey one byte of the picture, to make another one
 * @param extra segments put in behind the first
 */
export const photoBytes = (grey = 0, extra: readonly number[] = []): Uint8Array<ArrayBuffer> =>
  new Uint8Array([...START, ...JFIF, ...extra, ...FRAME, ...SCAN, grey, ...END]);

/** A block such as a camera writes: marker, length, text. */
export function cameraBlock(marker: number, text: string): number[] {
  const bytes = [...new TextEncoder().encode(text)];
  return [0xff, marker, 0, bytes.length + 2, ...bytes];
}
