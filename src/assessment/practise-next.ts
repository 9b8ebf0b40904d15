import { retentionAfter } from '../grading/index.ts';

/** Something a person met in an attempt: a fault on the bench, found or walked past. */
export type Met = {
  readonly id: string;
  readonly right: boolean;
  /** ISO instant */
  readonly at: string;
};

export type PractiseNext = {
  readonly id: string;
  readonly met: number;
  readonly missed: number;
  /** times in a row it was right up to now; 0 when it was missed the last time */
  readonly row: number;
  /** whole days since it was last met */
  readonly days: number;
  /** chance, 0 to 1, that it would be right today: an estimate */
  readonly chance: number;
};

/** Days after which one in ten is lost of what was right once. Common practice, no source. */
const FIRST_STABILITY = 2;
/** What each further time in a row lengthens it by, and days it grows to. Common practice, no source. */
const GROWS = 2.5;
const LONGEST_STABILITY = 365;
/** Right times that count as a row only when at least a day lies between: cramming is not keeping. */
const APART = 86_400_000;
/** Under this chance it is worth doing again. */
const WORTH_DOING = 0.85;

type Row = { readonly count: number; readonly lengthened: number };

/** The run of right times at the end, and how many of them came a day or more after the one before. */
function lastRow(times: readonly Met[]): Row {
  let row: Row = { count: 0, lengthened: 0 };
  let before: number | null = null;
  for (const { right, at } of times) {
    const now = Date.parse(at);
    if (!right) row = { count: 0, lengthened: 0 };
    else {
      const isApart = row.count > 0 && before !== null && now - before >= APART;
      row = { count: row.count + 1, lengthened: row.lengthened + (isApart ? 1 : 0) };
    }
    before = now;
  }
  return row;
}

function weigh(id: string, times: readonly Met[], now: string): PractiseNext {
  const met = times.length;
  const missed = times.filter(({ right }) => !right).length;
  const row = lastRow(times);
  const last = times.at(-1);
  const elapsed = Math.max(0, Date.parse(now) - Date.parse(last?.at ?? now)) / 86_400_000;
  // one right and one wrong are added: nobody is certain from one time
  const knows = (met - missed + 1) / (met + 2);
  const stability = Math.min(LONGEST_STABILITY, FIRST_STABILITY * GROWS ** row.lengthened);
  // missed the last time, there is nothing to forget: what counts is how seldom it has been right
  const kept = row.count === 0 ? 0.5 : retentionAfter(elapsed, stability);
  // a row lifts what older misses pull down
  const known = row.count === 0 ? knows : Math.max(knows, 1 - 1 / (row.count + 1));
  return { id, met, missed, row: row.count, days: Math.floor(elapsed), chance: known * kept };
}

/**
 * What a person should practise next: what they would most likely get wrong today, from what they have
 * met so far. What was missed counts as hardly known; what was right fades with the days since, the
 * slower the more often it was right with a day or more between. Only what was ever missed is offered.
 * Forgetting follows the power law of `retentionAfter`; the figures that feed it are a stated guess.
 * @param met in any order
 * @param now ISO instant it is offered at
 * @returns least likely right first; never more than `most`
 */
export function practiseNext(met: readonly Met[], now: string, most = 3): readonly PractiseNext[] {
  const inOrder = met
    .filter(({ at }) => at <= now)
    .toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  return [...Map.groupBy(inOrder, ({ id }) => id)]
    .map(([id, times]) => weigh(id, times, now))
    .filter(({ missed, chance }) => missed > 0 && chance < WORTH_DOING)
    .toSorted((a, b) => a.chance - b.chance || b.missed - a.missed || (a.id < b.id ? -1 : 1))
    .slice(0, most);
}
