/** Largest photo the site takes, bytes. */
export const LARGEST_PHOTO = 800_000;

/** Markers that stand alone, without a length after them. */
const isAlone = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
const START_OF_SCAN = 0xda;
const END = 0xd9;
/** A frame header: all of C0 to CF but the tables among them. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** Where cameras write place, time and name: Exif and XMP (1), IPTC (13). */
const TELLS: Readonly<Record<number, string>> = { 225: 'Exif or XMP', 237: 'IPTC' };

/**
 * What is wrong with a photo as a file, as one sentence, or null: it must be a JPEG (ITU-T T.81, annex B) of
 * at most 800 000 bytes that holds a picture and nothing about where or by whom it was taken.
 */
export function checkPhoto(bytes: Uint8Array): string | null {
  const notJpeg = 'photo must be a JPEG picture.';
  if (bytes.length > LARGEST_PHOTO) return `photo must be at most ${LARGEST_PHOTO / 1000} kB.`;
  if (bytes.length < 4 || bytes[0] !== 0xff || bytes[1] !== 0xd8) return notJpeg;
  if (bytes.at(-2) !== 0xff || bytes.at(-1) !== END) return notJpeg;
  let hasFrame = false;
  for (let at = 2; at + 3 < bytes.length; ) {
    if (bytes[at] !== 0xff) return notJpeg;
    const marker = bytes[at + 1] ?? 0;
    // any number of FF bytes may stand before a marker
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === START_OF_SCAN) return hasFrame ? null : notJpeg;
    if (isAlone(marker)) {
      at += 2;
      continue;
    }
    const tells = TELLS[marker];
    if (tells !== undefined) {
      return `photo must hold nothing but the picture: it carries ${tells} data, which may tell where it was taken.`;
    }
    hasFrame ||= isFrame(marker);
    const length = (bytes[at + 2] ?? 0) * 256 + (bytes[at + 3] ?? 0);
    if (length < 2) return notJpeg;
    at += 2 + length;
  }
  return notJpeg;
}
