import { type Effect, whoIsInStrip } from '../bench/index.ts';
import { gradeBench } from '../grading/index.ts';
import type { Fault, FaultCatalogue, LimitSet } from '../limits/index.ts';
import type { CutMade } from './cuts-made.ts';
import type { MoveEffect } from './form/index.ts';

/** An error that would have hurt somebody, whatever else was done well. */
export type CriticalError = {
  /** index into the actions of the first time, and how often in all */
  readonly first: number;
  readonly times: number;
} & (
  | { readonly kind: 'not-isolated' | 'while-turning' | 'cut-off-running' }
  /** `faults`: critical ones that were on the bench at any of these cuts, each once */
  | { readonly kind: 'fed-with-faults'; readonly faults: readonly Fault[] }
  | { readonly kind: 'fed-in-line'; readonly who: ReturnType<typeof whoIsInStrip> }
);

type Rules = { readonly sets: readonly LimitSet[]; readonly catalogue: FaultCatalogue };
type Came = { readonly action: number; readonly effect: Effect | MoveEffect };
type Counted = { readonly first: number; readonly times: number };

/** The critical errors of an attempt, the gravest kind first, each kind once with its count. */
export function countErrors(
  effects: readonly Came[],
  cuts: readonly CutMade[],
  rules: Rules,
): CriticalError[] {
  const errors: CriticalError[] = [];
  for (const kind of ['while-turning', 'cut-off-running', 'not-isolated'] as const) {
    const counted = count(effects.filter(({ effect }) => kindOf(effect) === kind));
    if (counted !== null) errors.push({ kind, ...counted });
  }
  const faulty = cuts
    .map(({ action, bench }) => ({
      action,
      faults: gradeBench({ bench, ...rules }).faults.filter(({ critical }) => critical),
    }))
    .filter(({ faults }) => faults.length > 0);
  const onFaults = count(faulty);
  if (onFaults !== null) {
    const faults = once(
      faulty.flatMap((one) => one.faults),
      ({ id }) => id,
    );
    errors.push({ kind: 'fed-with-faults', ...onFaults, faults });
  }
  const inLine = cuts
    .map(({ action, bench }) => ({ action, who: whoIsInStrip(bench) }))
    .filter(({ who }) => who.length > 0);
  const onLine = count(inLine);
  if (onLine !== null) {
    const who = once(
      inLine.flatMap((one) => one.who),
      (one) => one,
    );
    errors.push({ kind: 'fed-in-line', ...onLine, who });
  }
  return errors;
}

/** Cutting off a running saw puts no hand at the teeth, so it is counted apart from reaching in. */
function kindOf(effect: Came['effect']): CriticalError['kind'] | null {
  if (effect.kind === 'not-isolated') return effect.kind;
  if (effect.kind !== 'while-turning') return null;
  return effect.action === 'isolate' ? 'cut-off-running' : effect.kind;
}

function count(found: readonly { readonly action: number }[]): Counted | null {
  const [first] = found;
  return first === undefined ? null : { first: first.action, times: found.length };
}

const once = <T>(all: readonly T[], key: (one: T) => string): T[] => [
  ...new Map(all.map((one) => [key(one), one])).values(),
];
