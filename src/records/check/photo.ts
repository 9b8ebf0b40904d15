/** Largest photo the site takes, bytes. */
export const LARGEST_PHOTO = 800_000;
/** Longest side of a photo, pixels: a device draws at most 1600, and a decoder must not be asked for a field. */
export const LONGEST_SIDE = 4_096;

const START_OF_SCAN = 0xda;
const END = 0xd9;
/** Markers that stand alone, without a length after them. */
const isAlone = (marker: number): boolean => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);
/** A frame header: all of C0 to CF but the tables among them. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** Behind FF in the picture itself: a plain FF, or a mark to start over. */
const isInScan = (marker: number): boolean => marker === 0 || (marker >= 0xd0 && marker <= 0xd7);

/** Blocks that say how the picture is to be read, by the text they begin with. */
const NEEDED: Readonly<Record<number, string>> = {
  224: 'JFIF\0',
  226: 'ICC_PROFILE\0',
  238: 'Adobe',
};
const NAMES: Readonly<Record<number, string>> = {
  225: 'Exif or XMP',
  237: 'IPTC',
  254: 'comment',
};

type Segment = {
  readonly marker: number;
  readonly at: number;
  /** first byte behind it, its scan data included */
  readonly end: number;
};

/** The end of what is drawn behind a scan header: the next marker that is no part of it, or null. */
function endOfScan(bytes: Uint8Array, from: number): number | null {
  for (let at = from; at + 1 < bytes.length; at++) {
    const next = bytes[at + 1] ?? 0;
    if (bytes[at] === 0xff && next !== 0xff && !isInScan(next)) return at;
  }
  return null;
}

/** The parts of a JPEG (ITU-T T.81, annex B) up to its end marker, or null for a file that is none. */
function segmentsOf(bytes: Uint8Array): Segment[] | null {
  if (bytes.length < 4 || bytes[0] !== 0xff || bytes[1] !== 0xd8) return null;
  const found: Segment[] = [];
  for (let at = 2; at + 1 < bytes.length; ) {
    const marker = bytes[at + 1] ?? 0;
    if (bytes[at] !== 0xff) return null;
    if (marker === END) return [...found, { marker, at, end: at + 2 }];
    if (marker === 0xff) {
      // any number of FF bytes may stand before a marker
      at += 1;
    } else if (isAlone(marker)) {
      at += 2;
    } else {
      const length = (bytes[at + 2] ?? 0) * 256 + (bytes[at + 3] ?? 0);
      const behind = at + 2 + length;
      const end = marker === START_OF_SCAN ? endOfScan(bytes, behind) : behind;
      if (length < 2 || end === null || end > bytes.length) return null;
      found.push({ marker, at, end });
      at = end;
    }
  }
  return null;
}

function beginsWith(bytes: Uint8Array, from: number, text: string): boolean {
  return [...text].every((letter, i) => bytes[from + i] === letter.charCodeAt(0));
}

/** Whether a block says something beside the picture: where, when, with what or by whom it was taken. */
function tells(bytes: Uint8Array, { marker, at }: Segment): boolean {
  if (marker === 0xfe) return true;
  if (marker < 0xe0 || marker > 0xef) return false;
  const needed = NEEDED[marker];
  return needed === undefined || !beginsWith(bytes, at + 4, needed);
}

/** Why the frame cannot be drawn here, or null. */
function checkFrame(bytes: Uint8Array, { at }: Segment): string | null {
  const height = (bytes[at + 5] ?? 0) * 256 + (bytes[at + 6] ?? 0);
  const width = (bytes[at + 7] ?? 0) * 256 + (bytes[at + 8] ?? 0);
  const fits = [width, height].every((side) => side >= 1 && side <= LONGEST_SIDE);
  return fits ? null : `photo must be 1 to ${LONGEST_SIDE} pixels on each side.`;
}

/**
 * What is wrong with a photo as a file, as one sentence, or null: it must be one JPEG of at most 800 000 bytes
 * and 4096 pixels a side that holds a picture, nothing about where or by whom it was taken, and nothing behind.
 */
export function checkPhoto(bytes: Uint8Array): string | null {
  const notJpeg = 'photo must be a JPEG picture.';
  if (bytes.length > LARGEST_PHOTO) return `photo must be at most ${LARGEST_PHOTO / 1000} kB.`;
  const segments = segmentsOf(bytes);
  if (segments === null) return notJpeg;
  const telling = segments.find((one) => tells(bytes, one));
  if (telling !== undefined) {
    const what = NAMES[telling.marker] ?? 'other';
    return `photo must hold nothing but the picture: it carries ${what} data, which may tell where it was taken.`;
  }
  const frames = segments.filter(({ marker }) => isFrame(marker));
  const [frame] = frames;
  const hasScan = segments.some(({ marker }) => marker === START_OF_SCAN);
  if (frame === undefined || frames.length > 1 || !hasScan) return notJpeg;
  if (segments.at(-1)?.end !== bytes.length) {
    return 'photo must hold nothing but the picture: something stands behind its end.';
  }
  return checkFrame(bytes, frame);
}

/**
 * A JPEG without the blocks that tell something beside the picture, and without what stands behind its end. A
 * file that is no JPEG comes back as it is. Done on the device before the digest is signed: taken off
 * afterwards, the digest would name another file.
 */
export function stripPhoto(bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const segments = segmentsOf(bytes);
  if (segments === null) return bytes.slice();
  const kept = segments.filter((one) => !tells(bytes, one));
  const parts = [bytes.subarray(0, 2), ...kept.map(({ at, end }) => bytes.subarray(at, end))];
  const stripped = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    stripped.set(part, at);
    at += part.length;
  }
  return stripped;
}
