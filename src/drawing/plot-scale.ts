import { formatInchFraction, inchesToMm, mmToInches } from '../geometry/index.ts';

/** One mark of a scale: where it stands, in the unit of the axis, and what is written there. */
export type Tick = { readonly value: number; readonly text: string };

export type Scale = { readonly from: number; readonly to: number; readonly ticks: readonly Tick[] };

/** The least round step, 1, 2 or 5 times a power of ten, that takes at most `most` steps over `span`. */
export function roundStep(span: number, most: number): number {
  const power = 10 ** Math.floor(Math.log10(span / most));
  const step = [1, 2, 5, 10].find((one) => one * power * most >= span * (1 - 1e-9)) ?? 10;
  return Number((step * power).toPrecision(3));
}

const decimalsOf = (step: number): number => Math.max(0, -Math.floor(Math.log10(step) + 1e-9));

function ticksAt(first: number, last: number, step: number, say: (value: number) => string) {
  return Array.from({ length: last - first + 1 }, (_, i): Tick => {
    const value = Number(((first + i) * step).toPrecision(12));
    return { value, text: say(value) };
  });
}

/** A stretch finer than this, of its own size or of 1, is only the noise of binary fractions. */
const FINEST = 1e-9;

/** A stretch that is not empty: a single value is given room on both sides. */
function widen(values: readonly number[]): [number, number] {
  const least = Math.min(...values);
  const most = Math.max(...values);
  const size = Math.max(Math.abs(least), Math.abs(most));
  if (most - least > FINEST * Math.max(1, size)) return [least, most];
  const room = Math.max(size * 0.1, 1);
  return [least - room, most + room];
}

/** A scale whose first and last marks are round and hold all the values between them. */
export function makeScale(values: readonly number[], mostSteps: number): Scale {
  const [least, most] = widen(values);
  let step = roundStep(most - least, mostSteps);
  // room for the ends: a value just past a mark takes one step more
  while (Math.ceil(most / step - 1e-9) - Math.floor(least / step + 1e-9) > mostSteps) {
    step = roundStep(step * mostSteps * 1.01, mostSteps);
  }
  const first = Math.floor(least / step + 1e-9);
  const last = Math.ceil(most / step - 1e-9);
  const ticks = ticksAt(first, last, step, (value) => value.toFixed(decimalsOf(step)));
  return { from: (ticks[0] as Tick).value, to: (ticks[ticks.length - 1] as Tick).value, ticks };
}

/** Steps a shop rule has, in inches; finer lengths are told in decimals of an inch. */
const RULE_STEPS = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 48, 120, 240, 480];

/** Round inches along a scale in mm; `value` of each mark stays in mm. */
export function inchTicks({ from, to }: Scale, mostSteps: number): Tick[] {
  const [low, high] = [mmToInches(from), mmToInches(to)];
  const span = high - low;
  const isFine = span < 0.5;
  const step = isFine
    ? roundStep(span, mostSteps)
    : (RULE_STEPS.find((one) => one * mostSteps >= span) ?? roundStep(span, mostSteps));
  const say = (inches: number): string =>
    isFine ? inches.toFixed(decimalsOf(step)) : formatInchFraction(inchesToMm(inches), 16);
  return ticksAt(Math.ceil(low / step - 1e-9), Math.floor(high / step + 1e-9), step, say).map(
    ({ value, text }) => ({ value: inchesToMm(value), text }),
  );
}
