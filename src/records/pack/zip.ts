import { unzipSync, type Zippable, zipSync } from 'fflate';
import type { Bytes } from '../check/index.ts';

/** More than any pack: a file that says it unpacks to more is refused unread. Bytes. */
const LARGEST_UNPACKED = 500_000_000;
const MOST_FILES = 50_000;

/**
 * A zip of these files in this order, the same bytes from the same files on every machine.
 * @param day whose noon stands on every file: a zip has no time zone
 */
export function writeZip(files: ReadonlyMap<string, Uint8Array>, day: string): Bytes {
  const [year = 1980, month = 1, date = 1] = day.split('-').map(Number);
  // read back by the packer as local time: noon is there in every time zone on every day
  const mtime = new Date(year, month - 1, date, 12);
  const zippable: Zippable = {};
  for (const [path, bytes] of files) {
    // what is packed already is stored: packing it again costs time and wins nothing
    zippable[path] = [bytes, { level: /\.(pdf|jpg)$/.test(path) ? 0 : 6, mtime }];
  }
  return zipSync(zippable);
}

/** What a zip holds, by path; null for a file that cannot be unpacked or is there twice. */
export type Unpacked = ReadonlyMap<string, Bytes | null>;

/** Whether these bytes begin as a zip does. */
export const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

/** The files of a zip, each unpacked by itself so that a damaged one spoils no other. Null for no zip at all. */
export function readZip(bytes: Uint8Array): Unpacked | null {
  const names: string[] = [];
  let total = 0;
  try {
    unzipSync(bytes, {
      filter: ({ name, originalSize }) => {
        names.push(name);
        total += originalSize;
        return false;
      },
    });
  } catch {
    return null;
  }
  if (total > LARGEST_UNPACKED || names.length > MOST_FILES) return null;
  const files = new Map<string, Bytes | null>();
  for (const [place, name] of names.entries()) {
    files.set(name, files.has(name) ? null : unpackOne(bytes, place));
  }
  return files;
}

function unpackOne(bytes: Uint8Array, wanted: number): Bytes | null {
  let place = -1;
  try {
    const found = unzipSync(bytes, {
      filter: () => {
        place += 1;
        return place === wanted;
      },
    });
    const [file] = Object.values(found);
    return file === undefined ? null : new Uint8Array(file);
  } catch {
    return null;
  }
}
