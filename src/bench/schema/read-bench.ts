import type { z } from 'zod';
import { type Bench, BenchSchema } from './bench-schema.ts';
import { KnifeSchema } from './guarding.ts';
import { isPossible } from './impossible.ts';
import { describeProblem, type Problem } from './problem.ts';

export type ReadBench =
  | { readonly ok: true; readonly bench: Bench }
  | { readonly ok: false; readonly error: Problem };

/** A bench from a parsed file, or the first problem with it. Never throws. */
export function readBench(value: unknown): ReadBench {
  const parsed = BenchSchema.safeParse(value);
  if (parsed.success) return { ok: true, bench: parsed.data };
  return { ok: false, error: describeProblem(parsed.error, 'The bench file') };
}

/**
 * A bench with another knife on it, or null when a field of the knife is out of its range or no fitter could put it
 * there. The rest of the bench is taken as it was read, so that a whole rack can be tried in little time.
 */
export function withKnife(bench: Bench, knife: z.input<typeof KnifeSchema>): Bench | null {
  const read = KnifeSchema.safeParse(knife);
  if (!read.success) return null;
  const fitted = { ...bench, knife: read.data };
  return isPossible(fitted) ? fitted : null;
}
