import { isMeasureId, MEASURES, type Measures, measureBench } from '../measures/index.ts';
import type { Bench } from '../schema/index.ts';
import { findField } from './fields.ts';
import type { Figure, FigureUnit } from './figure.ts';
import { type Amount, amountOf, figureOf, plainAmount, putTogether } from './put-together.ts';
import { readSum, type Sum } from './read-sum.ts';
import { isWorking, WORKINGS } from './workings.ts';

/** A measure, a working or a field by its name. @throws Error in one sentence when the bench has none */
function findNamed(bench: Bench, name: string, measures: Measures): Figure {
  const noNumber = () => new Error(`The figure ${name} has no number on this bench.`);
  if (isWorking(name)) {
    const { unit, of } = WORKINGS[name];
    const value = of(bench);
    if (value === null || !Number.isFinite(value)) throw noNumber();
    return { value, unit };
  }
  if (isMeasureId(name)) {
    const value = measures[name];
    if (typeof value !== 'number') throw noNumber();
    return { value, unit: MEASURES[name].unit as FigureUnit };
  }
  const field = findField(bench, name);
  if (field === null) throw new Error(`There is no figure named ${name} on this bench.`);
  return field;
}

const namesIn = (sum: Sum): readonly string[] =>
  sum.kind === 'name'
    ? [sum.name]
    : sum.kind === 'minus'
      ? namesIn(sum.of)
      : sum.kind === 'pair'
        ? [...namesIn(sum.one), ...namesIn(sum.other)]
        : [];

/** The names of the figures a sum is made of. @throws Error in one sentence when it is no sum */
export const namesOf = (of: string): readonly string[] => within(of, () => namesIn(readSum(of)));

function workOut(sum: Sum, find: (name: string) => Figure): Amount {
  if (sum.kind === 'number') return plainAmount(sum.value);
  if (sum.kind === 'name') return amountOf(find(sum.name));
  if (sum.kind === 'minus') {
    const { value, powers } = workOut(sum.of, find);
    return { value: -value, powers };
  }
  return putTogether(workOut(sum.one, find), sum.sign, workOut(sum.other, find));
}

/** Runs `work`, and says which sum it was when it fails. */
function within<Result>(of: string, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    throw new Error(`The sum "${of}" cannot be worked out: ${(error as Error).message}.`);
  }
}

/**
 * A figure of a bench: a measure (`knife.gapMax`), a field (`blade.kerf`), a working (`blade.energy`) or
 * a sum of them (`(blade.kerf - knife.thickness) / 2`), with its unit.
 * @param measures what `measureBench` gave, where it is at hand
 * @throws Error in one sentence when the bench has no such number: whoever named it is told what is wrong
 */
export function findFigure(
  bench: Bench,
  of: string,
  measures: Measures = measureBench(bench),
): Figure {
  const sum = within(of, () => readSum(of));
  if (sum.kind === 'name') return findNamed(bench, sum.name, measures);
  const names = namesIn(sum);
  if (names.length === 0) throw new Error(`The sum "${of}" names no figure of a bench.`);
  // a name that is not there is told as such, whatever sum it stands in
  const found = new Map(names.map((name) => [name, findNamed(bench, name, measures)]));
  return within(of, () => figureOf(workOut(sum, (name) => found.get(name) as Figure)));
}
