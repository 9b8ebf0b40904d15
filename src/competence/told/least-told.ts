import { type Told, type ToldKind, tell } from './told.ts';

const SUSPENDED_FOR: Readonly<Record<string, ToldKind>> = {
  'near-miss': 'least.suspended-near-miss',
  'machine-change': 'least.suspended-machine-change',
  'guard-change': 'least.suspended-guard-change',
  'long-break': 'least.suspended-long-break',
};

/**
 * A line as it is told to somebody from outside, such as an inspector: since when, by whom and for what kind of
 * reason, but not in the words somebody typed. Those may hold what concerns nobody but the workshop.
 */
export function leastTold(told: Told): Told {
  const { day = '', kind = '', seen = '', trainer = '', who = '' } = told.put;
  switch (told.kind) {
    case 'rests.suspended':
      return tell(SUSPENDED_FOR[String(kind)] ?? 'least.suspended-other', { day, who });
    case 'leave.ended':
      return tell('least.ended', { day, who });
    case 'withdrawn':
      return tell('least.withdrawn', { seen, trainer });
    case 'bench.out':
      return tell('least.bench-out', { day });
    default:
      return told;
  }
}
