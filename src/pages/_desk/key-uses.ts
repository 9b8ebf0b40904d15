import type { Site } from '../../accounts/index.ts';

/** What was signed with one device key, by the clock of the site. */
export type KeyUse = {
  readonly first: string;
  readonly last: string;
  readonly signed: number;
};

type Known = {
  /** the place in the log up to which each kind was read */
  readonly read: Map<string, number>;
  readonly uses: Map<string, KeyUse>;
  /** readings follow one another, so that nothing is counted twice */
  turn: Promise<void>;
};

const SIGNED = ['practical.signed', 'practical.cosigned'] as const;
/** Records held at a time: there are as many as were ever signed. */
const ROWS_AT_A_TIME = 500;
const known = new Map<string, Known>();

/** The key and the day of a record, or null where it can be read no more: it then counts for no key. */
function readUse(text: string): { readonly keyId: string; readonly received: string } | null {
  try {
    const { body, received } = JSON.parse(text);
    return typeof body?.keyId === 'string' && typeof received === 'string'
      ? { keyId: body.keyId, received }
      : null;
  } catch {
    return null;
  }
}

function note({ uses }: Known, text: string): void {
  const use = readUse(text);
  if (use === null) return;
  const before = uses.get(use.keyId);
  const { received } = use;
  uses.set(use.keyId, {
    first: before !== undefined && before.first < received ? before.first : received,
    last: before !== undefined && before.last > received ? before.last : received,
    signed: (before?.signed ?? 0) + 1,
  });
}

/** Reads on from where it was left. One kind after the other, each in the order of the log. */
async function readOn(org: string, all: Known, { store }: Site): Promise<void> {
  for (const kind of SIGNED) {
    for (let rows = ROWS_AT_A_TIME; rows === ROWS_AT_A_TIME; ) {
      const some = await store.db
        .selectFrom('event')
        .select(['seq', 'json'])
        .where('org', '=', org)
        .where('kind', '=', kind)
        .where('seq', '>', all.read.get(kind) ?? -1)
        .orderBy('seq')
        .limit(ROWS_AT_A_TIME)
        .execute();
      for (const { json, seq } of some) {
        note(all, json);
        all.read.set(kind, seq);
      }
      rows = some.length;
      await new Promise((resolve) => setImmediate(resolve));
    }
  }
}

/**
 * What was signed in an organisation, key by key. Whole records of thousands of practicals are not read for a page
 * of a few keys: they are gone through once, some at a time, and from then on only what is new.
 */
export async function keyUsesOf(org: string, site: Site): Promise<ReadonlyMap<string, KeyUse>> {
  const all = known.get(org) ?? { read: new Map(), uses: new Map(), turn: Promise.resolve() };
  known.set(org, all);
  const turn = all.turn.then(() => readOn(org, all, site));
  // one that failed has its own caller to tell; the next one reads on
  all.turn = turn.catch(() => {});
  await turn;
  return all.uses;
}
