/*
 * A mark beside the store for every signed record that waits in it. It lets a page know with two lines of
 * script whether anything waits, and it outlives the store: a mark whose record is gone is a record that the
 * browser has thrown away, which must be told. Written after a record is kept and taken off before it is let go.
 */

const RECORD = 'here-signed/';
const TRAINER = 'here-trainer';

function marks(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}

function set(name: string): void {
  try {
    marks()?.setItem(name, '1');
  } catch {
    // no room for a mark: the record itself is kept
  }
}

export const markRecords = (signoffs: readonly string[]): void =>
  signoffs.forEach((signoff) => {
    set(`${RECORD}${signoff}`);
  });

export const unmarkRecords = (signoffs: readonly string[]): void =>
  signoffs.forEach((signoff) => {
    marks()?.removeItem(`${RECORD}${signoff}`);
  });

/** Ids of the records that are marked as waiting here. */
export function markedRecords(): string[] {
  const kept = marks();
  if (kept === null) return [];
  return Object.keys(kept)
    .filter((name) => name.startsWith(RECORD))
    .map((name) => name.slice(RECORD.length));
}

/** A trainer's kit or password check lies on this device, so that signing out has something to take away. */
export const markTrainer = (): void => set(TRAINER);
export const unmarkTrainer = (): void => marks()?.removeItem(TRAINER);
