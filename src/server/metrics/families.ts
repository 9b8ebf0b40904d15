/**
 * Numbers about the running site in the three shapes of OpenMetrics 1.0 that it needs. Labels are fixed when
 * a family is made, and their values come from patterns and classes alone: no person, no id, no address.
 */
export type Labels = Readonly<Record<string, string>>;

/** One line of the text: suffix of the name, labels, value. */
export type Sample = { readonly suffix: string; readonly labels: Labels; readonly value: number };

export type Family = {
  readonly name: string;
  readonly type: 'counter' | 'gauge' | 'histogram' | 'info';
  /** the last part of the name, when it is a unit */
  readonly unit?: 'seconds' | 'bytes';
  readonly help: string;
  readonly samples: () => readonly Sample[];
};

type About = Pick<Family, 'name' | 'unit' | 'help'>;

const keyOf = (labels: Labels): string => JSON.stringify(Object.entries(labels).sort());

export type Counter = { readonly family: Family; readonly add: (labels?: Labels) => void };

/**
 * Counts what happens. It only goes up, from 0 at the start of the process.
 * @param known labels that are shown from the start, at 0
 */
export function makeCounter(about: About, known: readonly Labels[] = []): Counter {
  const totals = new Map(known.map((labels) => [keyOf(labels), { labels, value: 0 }]));
  const samples = () =>
    [...totals.values()].map((one) => ({ suffix: '_total', ...one }) satisfies Sample);
  return {
    family: { ...about, type: 'counter', samples },
    add(labels = {}) {
      const key = keyOf(labels);
      const total = totals.get(key);
      if (total === undefined) totals.set(key, { labels, value: 1 });
      else total.value += 1;
    },
  };
}

/** What is read off at the moment of asking. Null: not known now, so no line. */
export function makeGauge(
  about: About,
  read: () => readonly (readonly [Labels, number | null])[],
): Family {
  const samples = () =>
    read().flatMap(([labels, value]) => (value === null ? [] : [{ suffix: '', labels, value }]));
  return { ...about, type: 'gauge', samples };
}

export type Histogram = {
  readonly family: Family;
  readonly observe: (value: number, labels?: Labels) => void;
};

type Spread = { labels: Labels; counts: number[]; sum: number; count: number };

/**
 * How often a value was at most each of `bounds`, which go up.
 * @param known labels that are shown from the start, with nothing observed
 */
export function makeHistogram(
  about: About,
  bounds: readonly number[],
  known: readonly Labels[] = [],
): Histogram {
  const empty = (labels: Labels): Spread => ({
    labels,
    counts: bounds.map(() => 0),
    sum: 0,
    count: 0,
  });
  const spreads = new Map(known.map((labels) => [keyOf(labels), empty(labels)]));
  const samplesOf = ({ labels, counts, sum, count }: Spread): Sample[] => [
    ...bounds.map((bound, i) => ({
      suffix: '_bucket',
      labels: { ...labels, le: figure(bound) },
      value: counts[i] ?? 0,
    })),
    { suffix: '_bucket', labels: { ...labels, le: '+Inf' }, value: count },
    { suffix: '_count', labels, value: count },
    { suffix: '_sum', labels, value: sum },
  ];
  return {
    family: {
      ...about,
      type: 'histogram',
      samples: () => [...spreads.values()].flatMap(samplesOf),
    },
    observe(value, labels = {}) {
      const key = keyOf(labels);
      let spread = spreads.get(key);
      if (spread === undefined) {
        spread = empty(labels);
        spreads.set(key, spread);
      }
      spread.sum += value;
      spread.count += 1;
      for (const [i, bound] of bounds.entries()) {
        if (value <= bound) spread.counts[i] = (spread.counts[i] ?? 0) + 1;
      }
    },
  };
}

/** A number as OpenMetrics wants the bounds of buckets: 1 as 1.0. */
export const figure = (value: number): string =>
  Number.isInteger(value) ? value.toFixed(1) : String(value);
