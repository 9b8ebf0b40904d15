/** What there is to find on a bench and to be taken in by, as weights and per cent. */
export type ToFind = {
  readonly faults: readonly { readonly weight: number; readonly estimate: number }[];
  readonly lookAlikes: readonly {
    readonly weight: number;
    /** its part has a fault too, so that naming it costs half */
    readonly onFaultyPart: boolean;
    readonly estimate: number;
  }[];
  /** per cent who know what to do about a fault they found */
  readonly remedy: number;
};

export const chanceOf = (percent: number): number => Math.min(98, Math.max(2, percent)) / 100;

/** Chances of each total, kept by how many half-points it comes to above `least`. */
type Spread = { readonly least: number; readonly chances: readonly number[] };
type Outcome = { readonly points: number; readonly chance: number };

/** The spread of a total once something more has been added to it. */
function addTo({ least, chances }: Spread, outcomes: readonly Outcome[]): Spread {
  const lowest = Math.min(...outcomes.map(({ points }) => points));
  const highest = Math.max(...outcomes.map(({ points }) => points));
  const next = new Array<number>(chances.length + highest - lowest).fill(0);
  chances.forEach((chance, i) => {
    for (const outcome of outcomes) {
      const at = i + outcome.points - lowest;
      next[at] = (next[at] ?? 0) + chance * outcome.chance;
    }
  });
  return { least: least + lowest, chances: next };
}

/**
 * Expected score, 0 to 100, of one person at finding faults, exactly: faults are found, remedies known
 * and look-alikes fallen for independently, with their estimated chances. Counted in half-points, of
 * which every weight is a whole number. Sums and products alone, which no two machines do differently.
 * @param shift points of chance this person is above or below somebody at the end of training
 */
export function expectedFinding({ faults, lookAlikes, remedy }: ToFind, shift: number): number {
  const knows = chanceOf(remedy + shift);
  let spread: Spread = { least: 0, chances: [1] };
  let all = 0;
  for (const { weight, estimate } of faults) {
    const found = chanceOf(estimate + shift);
    all += 2 * weight;
    spread = addTo(spread, [
      { points: 0, chance: 1 - found },
      { points: weight, chance: found * (1 - knows) },
      { points: 2 * weight, chance: found * knows },
    ]);
  }
  for (const { weight, onFaultyPart, estimate } of lookAlikes) {
    const fooled = chanceOf(estimate - shift);
    spread = addTo(spread, [
      { points: 0, chance: 1 - fooled },
      { points: -weight * (onFaultyPart ? 1 : 2), chance: fooled },
    ]);
  }
  const { least, chances } = spread;
  const mean = chances.reduce((sum, chance, i) => sum + chance * Math.max(0, least + i), 0);
  return all === 0 ? 0 : (100 * mean) / all;
}

/**
 * The people a form is thought to be sat by: so many points of chance above or below somebody at the
 * end of training, and their share. A stated population, not a counted one.
 */
export const POPULATION = [
  { shift: -20, share: 0.1 },
  { shift: -10, share: 0.2 },
  { shift: 0, share: 0.4 },
  { shift: 10, share: 0.2 },
  { shift: 20, share: 0.1 },
] as const;

/** Mean over the population of what depends on how far somebody is along. */
export const overPopulation = (of: (shift: number) => number): number =>
  POPULATION.reduce((sum, { shift, share }) => sum + share * of(shift), 0);
