import { type Bench, BenchSchema } from './bench-schema.ts';
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
