import type { Action } from '../../../bench/index.ts';
import type { Claim, Outcome, SaidBeforehand, Started } from './protocol.ts';

/** A claim being written, any of its three parts not chosen yet. */
export type Draft = Claim;
export const EMPTY_DRAFT: Draft = { part: '', fault: '', remedy: '' };

/** All that was done on one task, as it lies in this browser until it is handed in or thrown away. */
export type Kept = {
  readonly version: 1;
  readonly started: Started;
  readonly actions: readonly Action[];
  readonly claims: readonly Claim[];
  readonly draft: Draft;
  readonly outcome: Outcome | null;
  /** left out by a page from before there were any */
  readonly said?: readonly SaidBeforehand[];
};

export type Shelf = {
  readonly read: () => Kept | null;
  /** false when the browser keeps nothing (refused or full) */
  readonly write: (kept: Kept) => boolean;
};

/**
 * Only the outline is looked at: whatever else is wrong shows when it is replayed, and a shelf that
 * cannot be replayed counts as empty. The server checks everything again.
 */
function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false;
  const kept = value as Partial<Record<keyof Kept, unknown>>;
  const started = kept.started as Partial<Started> | null | undefined;
  return (
    kept.version === 1 &&
    Array.isArray(kept.actions) &&
    Array.isArray(kept.claims) &&
    typeof started === 'object' &&
    started !== null &&
    typeof started.token === 'string' &&
    typeof started.bench === 'object' &&
    typeof started.task === 'object' &&
    typeof started.choices === 'object'
  );
}

/** The shelf of one task in the browser's own storage. */
export function shelfIn(storage: () => Storage, task: string): Shelf {
  const key = `bench-task:${task}`;
  return {
    read: () => {
      try {
        const value: unknown = JSON.parse(storage().getItem(key) ?? 'null');
        return isKept(value) ? value : null;
      } catch {
        return null;
      }
    },
    write: (kept) => {
      try {
        storage().setItem(key, JSON.stringify(kept));
        return true;
      } catch {
        return false;
      }
    },
  };
}
