import type { Claim } from '../../bench/work/protocol.ts';
import type { Work } from './protocol.ts';

/** The work as it lies on this device, until it is handed in. */
export type DeviceCopy = {
  readonly attempt: string;
  /** how often the server had kept it when this was written */
  readonly revision: number;
  readonly work: Work;
  /** what was last sent, whether or not an answer came */
  readonly sent: Work | null;
  /** findings begun and not written down yet, by task */
  readonly drafts: Readonly<Record<string, Claim>>;
};

const KEY = 'sitting';

/** Only the outline is looked at: the server checks everything again. */
function isCopy(value: unknown): value is DeviceCopy {
  if (typeof value !== 'object' || value === null) return false;
  const { attempt, revision, work, drafts } = value as Partial<Record<keyof DeviceCopy, unknown>>;
  return (
    typeof attempt === 'string' &&
    typeof revision === 'number' &&
    typeof work === 'object' &&
    work !== null &&
    typeof drafts === 'object' &&
    drafts !== null
  );
}

export type Shelf = {
  readonly read: (attempt: string) => DeviceCopy | null;
  /** false when the browser keeps nothing */
  readonly write: (copy: DeviceCopy) => boolean;
  readonly clear: () => void;
};

/** A person sits one form at a time, so there is one place for it. */
export function shelfFor(storage: () => Storage): Shelf {
  return {
    read: (attempt) => {
      try {
        const value: unknown = JSON.parse(storage().getItem(KEY) ?? 'null');
        return isCopy(value) && value.attempt === attempt ? value : null;
      } catch {
        return null;
      }
    },
    write: (copy) => {
      try {
        storage().setItem(KEY, JSON.stringify(copy));
        return true;
      } catch {
        return false;
      }
    },
    clear: () => {
      try {
        storage().removeItem(KEY);
      } catch {
        // nothing was kept
      }
    },
  };
}

/** How many things were done at the benches of this work. */
export const countDoings = (work: Work): number =>
  Object.values(work).reduce(
    (sum, one) =>
      sum + (one.kind === 'find' ? one.actions.length : one.kind === 'set' ? one.moves.length : 1),
    0,
  );

/** One spelling for one value: fields in order, and a reading that was written down later left out. */
const spell = (value: unknown): string =>
  JSON.stringify(value, (key, inner: unknown) => {
    if (typeof inner !== 'object' || inner === null || Array.isArray(inner)) {
      return key === 'read' ? undefined : inner;
    }
    return Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)));
  });
const isSame = (one: unknown, other: unknown): boolean => spell(one) === spell(other);

/** Whether this device is only ahead of the server: it has done more, and nothing differently. */
function isAhead(server: Work, device: Work): boolean {
  return Object.entries(server).every(([task, was]) => {
    const is = device[task];
    if (is === undefined || is.kind !== was.kind) return false;
    const [before, after] =
      was.kind === 'find' && is.kind === 'find'
        ? [was.actions, is.actions]
        : was.kind === 'set' && is.kind === 'set'
          ? [was.moves, is.moves]
          : [[], []];
    return isSame(after.slice(0, before.length), before);
  });
}

/**
 * The work to go on with when a form is opened again. What lies on the device counts where it only goes
 * on from what the server has; else it was done after another device had taken over, and is put aside.
 */
export function chooseWork(
  given: { readonly revision: number; readonly work: Work },
  copy: DeviceCopy | null,
): { readonly work: Work; readonly aside: number } {
  if (copy === null) return { work: given.work, aside: 0 };
  if (isAhead(given.work, copy.work)) {
    // chosen answers carry no order: the device's are newer only if nobody saved since
    const isNewer = copy.revision >= given.revision || isSame(copy.sent, given.work);
    const work = isNewer ? copy.work : { ...copy.work, ...chosenIn(given.work) };
    return { work, aside: 0 };
  }
  const aside = Math.max(1, countDoings(copy.work) - countDoings(given.work));
  return { work: given.work, aside };
}

const chosenIn = (work: Work): Work =>
  Object.fromEntries(
    Object.entries(work).filter(([, { kind }]) => kind !== 'find' && kind !== 'set'),
  );
