import type { JsonObject } from '../../src/records/index.ts';

/** The file with one value changed, as a person with an editor would. `undefined` takes it out. */
export function bendFile(file: object, path: string, value: unknown): JsonObject {
  const copy = structuredClone(file) as Record<string, unknown>;
  const steps = path.split('.');
  const last = steps.pop() as string;
  const inner = steps.reduce<Record<string, unknown>>(
    (at, step) => at[step] as Record<string, unknown>,
    copy,
  );
  if (value === undefined) delete inner[last];
  else inner[last] = value;
  return copy;
}
