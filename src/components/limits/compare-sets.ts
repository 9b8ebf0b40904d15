import { isMeasureId, MEASURE_IDS, MEASURES } from '../../bench/index.ts';
import { FAULT_PARTS, type Limit, type LimitSet, type Source } from '../../limits/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import { type Piece, plainText } from '../pieces.ts';
import { figureOf } from './figure-of.ts';
import { sayWhen } from './say-when.ts';

export type ShownLimit = {
  /** the number of its source in the list of sources, from 1 */
  readonly source: number;
  readonly limit: Limit;
  readonly figure: readonly Piece[];
  readonly when: readonly Piece[];
};

export type Comparison = {
  readonly rows: readonly Row[];
  /** every source used, in the order of first use */
  readonly sources: readonly Source[];
};

/** One thing that is measured or looked at, and what each set asks of it. */
export type Row = {
  readonly measure: string;
  readonly title: string;
  /** set id to its limits on this measure; absent where it has none */
  readonly cells: ReadonlyMap<string, readonly ShownLimit[]>;
  /** two sets ask for something else of the same thing */
  readonly differs: boolean;
};

/** Parts in the order of a walk round the bench, then measures in the order of their catalogue. */
function placeOf(measure: string): number {
  const isKnown = isMeasureId(measure);
  const part = isKnown ? MEASURES[measure].part : (measure.split('.')[0] ?? '');
  const at = FAULT_PARTS.findIndex((one) => one === (part === 'underGuard' ? 'under-guard' : part));
  // whether a part is there at all comes first, odd fields of the bench file last
  const within = isKnown ? MEASURE_IDS.indexOf(measure) + 1 : measure.includes('.') ? 999 : 0;
  return (at < 0 ? FAULT_PARTS.length : at) * 1000 + within;
}

/** Numbers each source once, in the order of first use. */
function numberSources() {
  const sources = new Map<string, Source>();
  const numberOf = (source: Source): number => {
    const key = JSON.stringify([source.document, source.clause, source.year, source.seen]);
    if (!sources.has(key)) sources.set(key, source);
    return [...sources.keys()].indexOf(key) + 1;
  };
  return { sources, numberOf };
}

/** Limit sets side by side, a row to a measure: in English unless a speaker is told. */
export function compareSets(sets: readonly LimitSet[], say: Speaker = sayIn('en')): Comparison {
  const limits = sets.flatMap((set) => set.limits);
  const named = [...new Set(limits.map(({ measure }) => measure))];
  const { sources, numberOf } = numberSources();
  const show = (limit: Limit): ShownLimit => ({
    source: numberOf(limit.source),
    limit,
    figure: figureOf(limit, say),
    when: limit.when === null ? [] : sayWhen(limit.when, say),
  });
  const rows = named
    .sort((a, b) => placeOf(a) - placeOf(b))
    .map((measure): Row => {
      const shown = limits.filter((one) => one.measure === measure).map(show);
      const cells = Map.groupBy(shown, ({ limit }) => limit.set);
      return {
        measure,
        title: titleOf(measure, cells, say),
        cells,
        differs: new Set([...cells.values()].map(textOf)).size > 1,
      };
    });
  return { rows, sources: [...sources.values()] };
}

const textOf = (limits: readonly ShownLimit[]): string =>
  limits.map(({ figure }) => plainText(figure)).join(' / ');

/** A measure by its name; else as its first limit is called, in the words of the catalogue where it is in English. */
function titleOf(
  measure: string,
  cells: ReadonlyMap<string, readonly ShownLimit[]>,
  say: Speaker,
): string {
  if (isMeasureId(measure)) return say.maybe(`names.measure.${measure}`, MEASURES[measure].title);
  const title = [...cells.values()][0]?.[0]?.limit.title ?? measure;
  return say.language === 'en' ? title : say.maybe(`limits.row.${measure}`, title);
}
