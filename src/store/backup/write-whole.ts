import { createHash } from 'node:crypto';
import {
  closeSync,
  createReadStream,
  fsyncSync,
  openSync,
  renameSync,
  statSync,
  writeSync,
} from 'node:fs';
import { basename, dirname } from 'node:path';
import type { FileSum } from './manifest.ts';
import type { Tell } from './progress.ts';

/** Waits until a file, or the list of names of a folder, lies on the disk. */
export function settle(path: string): void {
  const descriptor = openSync(path, 'r');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** Writes a small file so that after a power cut it is there whole or not at all. */
export function writeWhole(path: string, text: string): void {
  const unfinished = `${path}.unfinished`;
  const descriptor = openSync(unfinished, 'wx', 0o600);
  try {
    writeSync(descriptor, text);
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
  renameSync(unfinished, path);
  settle(dirname(path));
}

/** Size and digest of a file, read a piece at a time. */
export async function sumFile(path: string, tell?: Tell): Promise<FileSum> {
  const hash = createHash('sha256');
  const whole = statSync(path).size;
  let done = 0;
  for await (const piece of createReadStream(path, { highWaterMark: 1 << 20 })) {
    hash.update(piece as Buffer);
    done += (piece as Buffer).length;
    tell?.({ step: 'digests', done, whole });
  }
  return { name: basename(path), bytes: statSync(path).size, sha256: hash.digest('hex') };
}
