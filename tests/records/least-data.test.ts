import { describe, expect, it } from 'vitest';
import allowed from '../fixtures/proof-fields.json' with { type: 'json' };
import { sampleLeave } from './sample-authorisation.ts';
import { sampleProof } from './sample-log.ts';

/*
 * A proof goes from hand to hand, so it holds what an inspector needs and nothing more. The list of fields was
 * read through by a person: whoever adds a field to a proof adds it there, and says why it must be in the file.
 */

/** The way to every value, the places in a list left out. */
function pathsOf(value: unknown, path = ''): string[] {
  if (Array.isArray(value)) {
    return value.length === 0 ? [`${path}[]`] : value.flatMap((one) => pathsOf(one, `${path}[]`));
  }
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, one]) =>
    pathsOf(one, path === '' ? key : `${path}.${key}`),
  );
}

type Named = { readonly name: string };
const SHOWN = ['nothing', 'results', 'all'] as const;
const FILES: [string, object, readonly string[]][] = [
  ['of a practical', (await sampleProof()).file, allowed['sign-off']],
];
for (const shown of SHOWN) {
  FILES.push([`of leave, showing ${shown}`, (await sampleLeave({ shown })).file, allowed.leave]);
}

describe.each(FILES)('a proof %s', (_, file, fields) => {
  it('has no field but those that were thought about', () => {
    expect([...new Set(pathsOf(file))].filter((path) => !fields.includes(path))).toEqual([]);
  });

  it('holds no e-mail address, and names nowhere but among the names', () => {
    const { names, ...rest } = JSON.parse(JSON.stringify(file)) as {
      names: Record<string, Named | Named[] | null>;
    };
    const text = JSON.stringify(rest);
    expect(text).not.toMatch(/[\w.+-]+@[\w-]+\.[a-z]/i);
    const told = Object.values(names)
      .flat()
      .flatMap((one) => one?.name ?? []);
    expect(told.length).toBeGreaterThan(0);
    for (const name of told) expect(text).not.toContain(name);
  });
});
