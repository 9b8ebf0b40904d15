import { describe, expect, it, vi } from 'vitest';
import { canonicalText, verifyProof } from '../../src/records/index.ts';
import { sampleLeave } from './sample-authorisation.ts';
import { sampleId, sampleProof } from './sample-log.ts';

/*
 * Ten thousand files that differ in one byte: most of what is hashed, unpacked and held against a key is
 * the same in all of them. Each of these is a function of its bytes alone, so its answer to the same
 * bytes is kept; every check is still made of every file.
 */
const kept = vi.hoisted(
  () =>
    <Args extends unknown[], Answer>(
      work: (...args: Args) => Answer,
      keyOf: (...args: Args) => string,
    ) => {
      const answers = new Map<string, Answer>();
      return (...args: Args): Answer => {
        const key = keyOf(...args);
        const known = answers.get(key);
        if (known !== undefined) return known;
        const answer = work(...args);
        answers.set(key, answer);
        return answer;
      };
    },
);
const asKey = vi.hoisted(
  () =>
    (...all: Uint8Array[]): string =>
      all.map((bytes) => Buffer.from(bytes).toString('latin1')).join('|'),
);
vi.mock('../../src/records/check/signing-key.ts', async (original) => {
  const real = await original<typeof import('../../src/records/check/signing-key.ts')>();
  return { ...real, verifySignature: kept(real.verifySignature, asKey) };
});
vi.mock('../../src/records/check/status-list.ts', async (original) => {
  const real = await original<typeof import('../../src/records/check/status-list.ts')>();
  return { ...real, decodeBits: kept(real.decodeBits, (text) => text) };
});

const practical = await sampleProof();
const options = { trusted: [practical.issuer], at: '2026-03-10T12:00:00.000Z' };
/** Both forms of proof, and the second with things left out. */
const FILES: readonly (readonly [string, object])[] = [
  ['of a practical', practical.file],
  ['of leave, all shown', (await sampleLeave({ authorisation: { basis: [sampleId(40)] } })).file],
  ['of leave, with results', (await sampleLeave({ shown: 'results' })).file],
];
const decoder = new TextDecoder('utf-8', { fatal: true });

/** What somebody reads who opens the changed bytes, or null when that is nothing at all. */
function readBytes(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(decoder.decode(bytes));
  } catch {
    return null;
  }
}

type Fate = 'unreadable' | 'same' | 'refused' | 'believed';

async function meetFate(bytes: Uint8Array, text: string): Promise<Fate> {
  const value = readBytes(bytes);
  if (value === null) return 'unreadable';
  if (JSON.stringify(value) === text) return 'same';
  return (await verifyProof(value, options)).verdict === 'genuine' ? 'believed' : 'refused';
}

/** Changes the bytes at these places one at a time and tells what became of each file. */
async function tamper(text: string, places: readonly number[], bend: (byte: number) => number) {
  const bytes = new TextEncoder().encode(text);
  const fates: { at: number; fate: Fate }[] = [];
  for (let from = 0; from < places.length; from += 64) {
    const batch = places.slice(from, from + 64).map(async (at) => {
      const changed = bytes.slice();
      changed[at] = bend(changed[at] as number);
      return { at, fate: await meetFate(changed, text) };
    });
    fates.push(...(await Promise.all(batch)));
  }
  const count = (fate: Fate) => fates.filter((one) => one.fate === fate).length;
  return {
    believed: fates.filter(({ fate }) => fate === 'believed').map(({ at }) => at),
    refused: count('refused'),
    unreadable: count('unreadable'),
    same: count('same'),
  };
}

/** Leaving a name out, or all of them, is the holder's right. */
const mayGo = (path: readonly string[]): boolean => path.length === 2 && path[0] === 'names';

describe.each(FILES)('a proof %s with one byte changed', (_, file) => {
  const text = JSON.stringify(file);

  it('is genuine before', async () => {
    expect((await verifyProof(JSON.parse(text), options)).verdict).toBe('genuine');
    expect(canonicalText(file)).toContain('Softwood');
  });

  const every = Array.from(new TextEncoder().encode(text), (byte, at) => ({ byte, at }));

  it('is never genuine, whichever byte it is', async () => {
    const places = every.map(({ at }) => at);
    const tally = await tamper(text, places, (byte) => byte ^ 1);
    expect(tally.believed).toEqual([]);
    // nothing in the file is idle: no byte but makes it another file
    expect(tally.same).toBe(0);
    expect(tally.refused + tally.unreadable).toBe(places.length);
    expect(tally.refused).toBeGreaterThan(places.length / 2);
  }, 300_000);

  it('is never genuine with one letter of a key, hash or signature in the other case', async () => {
    // long runs of letters and digits: base 64, base 58 and hexadecimal
    const coded = [...text.matchAll(/[A-Za-z0-9+/_-]{40,}/g)].flatMap(({ 0: run, index }) => {
      const from = new TextEncoder().encode(text.slice(0, index)).length;
      return Array.from(run, (char, step) => ({ char, at: from + step }));
    });
    const letters = coded.filter(({ char }) => /[A-Za-z]/.test(char)).map(({ at }) => at);
    expect(letters.length).toBeGreaterThan(800);
    const tally = await tamper(text, letters, (byte) => byte ^ 0x20);
    expect(tally).toMatchObject({ believed: [], same: 0 });
    expect(tally.refused).toBeGreaterThan(letters.length - 10);
  }, 300_000);

  it('is never genuine with one value of it taken out', async () => {
    const paths: string[][] = [];
    const walk = (value: unknown, path: string[]) => {
      if (typeof value !== 'object' || value === null) return;
      for (const key of Object.keys(value)) {
        paths.push([...path, key]);
        walk((value as Record<string, unknown>)[key], [...path, key]);
      }
    };
    walk(file, []);
    expect(paths.length).toBeGreaterThan(100);
    for (const path of paths) {
      if (mayGo(path)) continue;
      const copy = JSON.parse(text) as Record<string, unknown>;
      const inner = path
        .slice(0, -1)
        .reduce<Record<string, unknown>>((at, step) => at[step] as never, copy);
      if (Array.isArray(inner)) inner.splice(Number(path.at(-1)), 1);
      else delete inner[path.at(-1) as string];
      const { verdict } = await verifyProof(copy, options);
      expect(verdict, path.join('.')).not.toBe('genuine');
    }
  });
});
