import {
  analyseItems,
  type Calibration,
  type Consistency,
  correlate,
  cronbachAlpha,
  decisionConsistency,
  type Exposure,
  errorOfMeasurement,
  fitBetaBinomial,
  type ItemFigures,
  livingstonIndex,
  type Mark,
  mayShow,
  meanOf,
  measureCalibration,
  measureExposure,
  type Showing,
  varianceOf,
} from '../../grading/index.ts';
import { effectiveLength } from './effective-length.ts';
import { firstSittings, type TestSitting } from './sitting.ts';

/** A figure with whether it may be shown for a sample of this size; null where it is not defined. */
export type Held<Value> = { readonly value: Value | null; readonly showing: Showing };

export type FaultFigures = ItemFigures & {
  readonly fault: string;
  /** share that was thought would find it, 0 to 1; null where nobody guessed */
  readonly thought: number | null;
  readonly difficultyShown: Showing;
  readonly discriminationShown: Showing;
};

export type PartFigures = {
  readonly part: string;
  /** sittings that had it */
  readonly count: number;
  /** mean score, 0 to 100 */
  readonly mean: number;
  /** what the mean was thought to be; null where nobody guessed */
  readonly thought: number | null;
  /** correlation with the score of the other parts; null where undefined */
  readonly discrimination: number | null;
  readonly meanShown: Showing;
  readonly discriminationShown: Showing;
};

export type TestFigures = {
  /** all that were handed in, and how many of them the figures rest on */
  readonly sittings: number;
  readonly counted: number;
  readonly people: number;
  /** of those counted, lowest first */
  readonly scores: readonly number[];
  /** hardest first */
  readonly faults: readonly FaultFigures[];
  readonly parts: readonly PartFigures[];
  /** alpha over the parts */
  readonly reliability: Held<number>;
  /** points of 100 */
  readonly error: Held<number>;
  /** how often two sittings would end alike; null without a pass mark */
  readonly consistency: Held<Consistency>;
  readonly livingston: Held<number>;
  readonly calibration: Held<Calibration>;
  readonly exposure: Held<Exposure>;
};

/** Mean of what was thought of one thing, over the sittings that had a guess; null where none had. */
function thoughtOf(guesses: readonly Readonly<Record<string, number>>[], id: string) {
  const given = guesses.flatMap((one) => (Object.hasOwn(one, id) ? [one[id] as number] : []));
  return given.length === 0 ? null : meanOf(given);
}

function faultFigures(sittings: readonly TestSitting[]): FaultFigures[] {
  const ids = [...new Set(sittings.flatMap(({ faults }) => Object.keys(faults)))].sort();
  if (ids.length === 0) return [];
  const marks = sittings.map(({ faults }) =>
    ids.map((id): Mark => (Object.hasOwn(faults, id) ? (faults[id] ? 1 : 0) : null)),
  );
  return analyseItems(marks)
    .map((figures, i) => ({
      ...figures,
      fault: ids[i] as string,
      thought: thoughtOf(
        sittings.map(({ thought }) => thought.faults),
        ids[i] as string,
      ),
      difficultyShown: mayShow('proportion', figures.asked),
      discriminationShown: mayShow('discrimination', figures.asked),
    }))
    .toSorted((a, b) => (a.difficulty ?? 1) - (b.difficulty ?? 1) || b.asked - a.asked);
}

/** Points a part brings to the whole score. */
const pointsOf = ({ parts }: TestSitting, id: string): number => {
  const all = Object.values(parts).reduce((sum, { weight }) => sum + weight, 0);
  const part = parts[id];
  return part === undefined ? 0 : (part.score * part.weight) / all;
};

const partIds = (sittings: readonly TestSitting[]): string[] => [
  ...new Set(sittings.flatMap(({ parts }) => Object.keys(parts))),
];

function partFigures(sittings: readonly TestSitting[]): PartFigures[] {
  return partIds(sittings).map((part) => {
    const having = sittings.filter(({ parts }) => Object.hasOwn(parts, part));
    const own = having.map((one) => pointsOf(one, part));
    const rest = having.map((one) =>
      Object.keys(one.parts).reduce((sum, id) => (id === part ? sum : sum + pointsOf(one, id)), 0),
    );
    return {
      part,
      count: having.length,
      mean: meanOf(having.map(({ parts }) => parts[part]?.score ?? 0)),
      thought: thoughtOf(
        having.map(({ thought }) => thought.parts),
        part,
      ),
      discrimination: own.length < 2 ? null : correlate(own, rest),
      meanShown: mayShow('proportion', own.length),
      discriminationShown: mayShow('discrimination', own.length),
    };
  });
}

/** Sittings that had every part, as rows of points. */
function completeParts(sittings: readonly TestSitting[]): number[][] {
  const ids = partIds(sittings);
  return sittings
    .filter(({ parts }) => ids.every((id) => Object.hasOwn(parts, id)))
    .map((one) => ids.map((id) => pointsOf(one, id)));
}

function reliabilityOf(rows: readonly (readonly number[])[]): number | null {
  return rows.length < 2 || (rows[0]?.length ?? 0) < 2 ? null : cronbachAlpha(rows);
}

/** The chance that two sittings end alike, by a model of right-or-wrong questions as sure as this test. */
function consistencyOf(
  scores: readonly number[],
  reliability: number | null,
  mark: number | null,
): Consistency | null {
  if (reliability === null || mark === null || scores.length < 2) return null;
  const shares = scores.map((score) => score / 100);
  const [mean, variance] = [meanOf(shares), varianceOf(shares)];
  const items = effectiveLength({ mean, variance, reliability });
  if (items === null || items < 2 || items > 500) return null;
  const model = fitBetaBinomial({ items, mean: items * mean, variance: items ** 2 * variance });
  return model === null ? null : decisionConsistency(model, Math.ceil((items * mark) / 100 - 1e-9));
}

/**
 * What a test has turned out to be, from the sittings handed in. Each figure says whether the sample
 * is large enough to be shown.
 * @param sittings of one test, in the order they were handed in
 * @param mark points of 100 that pass; null where none is set
 * @param count the first sitting of each person, or all of them, as if each were somebody else's
 */
export function testFigures(
  sittings: readonly TestSitting[],
  mark: number | null,
  count: 'first' | 'all' = 'first',
): TestFigures {
  const first = count === 'first' ? firstSittings(sittings) : sittings;
  const scores = first.map(({ score }) => score);
  const rows = completeParts(first);
  const alpha = reliabilityOf(rows);
  const variance = scores.length === 0 ? 0 : varianceOf(scores);
  const judgements = first.flatMap((one) => one.judgements);
  const held = <Value>(
    name: Parameters<typeof mayShow>[0],
    have: number,
    value: Value | null,
  ): Held<Value> => ({ value, showing: mayShow(name, have) });
  return {
    sittings: sittings.length,
    counted: first.length,
    people: new Set(sittings.map(({ person }) => person)).size,
    scores: scores.toSorted((a, b) => a - b),
    faults: faultFigures(first),
    parts: partFigures(first),
    reliability: held('reliability', rows.length, alpha),
    error: held(
      'error-of-measurement',
      rows.length,
      alpha === null ? null : errorOfMeasurement(variance, alpha),
    ),
    consistency: held('consistency', rows.length, consistencyOf(scores, alpha, mark)),
    livingston: held(
      'consistency',
      rows.length,
      alpha === null || mark === null
        ? null
        : livingstonIndex({ reliability: alpha, mean: meanOf(scores), variance, cut: mark }),
    ),
    calibration: held('calibration', judgements.length, measureCalibration(judgements)),
    exposure: held(
      'exposure',
      sittings.length,
      sittings.length === 0
        ? null
        : measureExposure(
            sittings.map(({ person, form, faults }) => ({
              person,
              form,
              items: Object.keys(faults),
            })),
          ),
    ),
  };
}
