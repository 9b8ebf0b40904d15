import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  currentVersion,
  defineKind,
  EVENT_KINDS,
  type EventKindName,
  fromHex,
  idAt,
  leafHash,
  migrateBody,
  newId,
  readEvent,
  readEventDraft,
  toHex,
  toLogEntry,
  utf8,
} from '../../src/records/index.ts';

type Fixture = {
  readonly event: Record<string, unknown> & { readonly version: number; readonly body: object };
  /** of the event as it was first entered: what must never change */
  readonly leafHash: string;
  readonly refused: readonly {
    readonly why: string;
    readonly at: string;
    readonly value: unknown;
    readonly sentence: string;
  }[];
};

const folder = new URL('../fixtures/events/', import.meta.url);
const readFixture = (kind: string, version: number): Fixture =>
  JSON.parse(readFileSync(new URL(`${kind}.v${version}.json`, folder), 'utf8')) as Fixture;
const kinds = Object.keys(EVENT_KINDS) as EventKindName[];
const everyVersion = kinds.flatMap((kind) =>
  EVENT_KINDS[kind].versions.map((version, index) => ({
    kind,
    name: version.name,
    version: index + 1,
  })),
);

function change(event: object, path: string, value: unknown): unknown {
  const copy = structuredClone(event) as Record<string, unknown>;
  const steps = path.split('.');
  const last = steps.pop() as string;
  steps.reduce<Record<string, unknown>>((at, step) => at[step] as Record<string, unknown>, copy)[
    last
  ] = value;
  return copy;
}
const sentence = (value: unknown): string | null => {
  const read = readEvent(value);
  return read.ok ? null : read.error.message;
};

describe('the register of kinds', () => {
  it('files each kind under its own name', () => {
    for (const kind of kinds) expect(EVENT_KINDS[kind].kind).toBe(kind);
  });

  it('takes in every kind there is a file for', () => {
    const source = new URL('../../src/records/events/kinds/', import.meta.url);
    const files = readdirSync(source).filter((name) => name !== 'index.ts');
    expect(files.map((name) => name.replace('.ts', '')).sort()).toEqual(
      kinds.map((kind) => kind.replace('.', '-')).sort(),
    );
  });

  it('names each version, and migrates to every one but the first', () => {
    for (const kind of kinds) {
      EVENT_KINDS[kind].versions.forEach((version: { name: string; migrate?: unknown }, index) => {
        expect(version.name, kind).toMatch(/^[a-z]/);
        expect(version.migrate === undefined, `${kind} version ${index + 1}`).toBe(index === 0);
      });
    }
  });

  it('has a fixture for every version that ever was, and none for others', () => {
    expect(readdirSync(folder).sort()).toEqual(
      everyVersion.map(({ kind, version }) => `${kind}.v${version}.json`).sort(),
    );
  });
});

describe.each(everyVersion)('$kind, version $version: $name', ({ kind, version }) => {
  const { event, leafHash: entered, refused } = readFixture(kind, version);

  it('still reads, as the current version', () => {
    expect(event).toMatchObject({ kind, version });
    const read = readEvent(event);
    expect(read.ok ? null : read.error.message).toBeNull();
    expect(read).toMatchObject({ event: { kind, version: currentVersion(EVENT_KINDS[kind]) } });
  });

  it('still has the leaf hash it was entered with', () => {
    expect(toHex(toLogEntry(event as never, 0).leafHash)).toBe(entered);
  });

  it('reads as a draft without the time of receipt', () => {
    const { received, ...draft } = event;
    expect(readEventDraft(draft).ok).toBe(true);
    expect(readEventDraft(event).ok).toBe(false);
  });

  it('refuses at least two things of its own', () => {
    expect(refused.length).toBeGreaterThanOrEqual(2);
  });

  it.each(refused)('refuses $why', ({ at, value, sentence: meant }) => {
    expect(sentence(change(event, at, value))).toBe(meant);
  });
});

describe('every event', () => {
  const { event } = readFixture('person.joined', 1);

  it.each<[string, string, unknown, string]>([
    [
      'an id of another version',
      'id',
      'f81d4fae-7dec-41d0-a765-00a0c91e6bf6',
      'id must be a UUID of version 7 in lower case.',
    ],
    ['a kind nobody knows', 'kind', 'person.left', 'kind must name a kind of event: '],
    ['a kind that every object has', 'kind', 'toString', 'kind must name a kind of event: '],
    [
      'a version that is to come',
      'version',
      2,
      'version must be a whole number from 1 to 1 for person.joined.',
    ],
    ['a version before the first', 'version', 0, 'version must be a whole number from 1 to 1000.'],
    [
      'an address for a person',
      'by',
      'ruth@alderlane.example',
      'by must be an id of 1 to 64 letters, digits, - or _.',
    ],
    [
      'a name for a person',
      'by',
      'Ruth Amsel',
      'by must be an id of 1 to 64 letters, digits, - or _.',
    ],
    [
      'a moment without its milliseconds',
      'at',
      '2026-03-03T10:00:00Z',
      'at must be a moment such as 2026-03-03T09:30:00.000Z.',
    ],
    [
      'a moment that never was',
      'at',
      '2026-02-30T10:00:00.000Z',
      'at must be a moment such as 2026-03-03T09:30:00.000Z.',
    ],
    ['a field of its own', 'note', 'x', 'The event has no field named note.'],
    ['a body that is none', 'body', 'x', 'body must be a group of fields.'],
  ])('refuses %s', (_, at, value, meant) => {
    expect(sentence(change(event, at, value))).toContain(meant);
  });

  it.each([[null], [undefined], ['{}'], [[]], [3]])(
    'refuses %j for an event, in one sentence',
    (value) => {
      expect(sentence(value)).toBe('The event must be given, as a group of fields.');
    },
  );
});

describe('a kind that grew', () => {
  const grown = defineKind({
    kind: 'thing.done',
    versions: [
      { name: 'as first written' },
      { name: 'adds a place', migrate: (older) => ({ ...(older as object), place: 'unknown' }) },
      {
        name: 'splits the name',
        migrate: (older) => {
          const { name, ...rest } = older as { name: string };
          return { ...rest, words: name.split(' ') };
        },
      },
    ],
    body: z.strictObject({ place: z.string(), words: z.array(z.string()) }),
    agrees: () => null,
  });

  it('brings every older body up to now, step by step', () => {
    expect(currentVersion(grown)).toBe(3);
    const meant = { place: 'unknown', words: ['set', 'knife'] };
    expect(migrateBody(grown, 1, { name: 'set knife' })).toEqual(meant);
    expect(migrateBody(grown, 2, { name: 'set knife', place: 'unknown' })).toEqual(meant);
    expect(migrateBody(grown, 3, meant)).toBe(meant);
  });
});

describe('ids', () => {
  it('are the example of RFC 9562 for its time and random bits', () => {
    // RFC 9562 appendix A.6: 2022-02-22T19:22:22Z, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F
    const random = fromHex('0cc318c4dc0c0c07398f') as Uint8Array;
    expect(idAt(0x017f22e279b0, random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
    expect(0x017f22e279b0).toBe(Date.parse('2022-02-22T19:22:22.000Z'));
  });

  it('keep only the bits there is room for', () => {
    expect(idAt(0, new Uint8Array(10).fill(255))).toBe('00000000-0000-7fff-bfff-ffffffffffff');
    expect(() => idAt(0, new Uint8Array(9))).toThrow('random must be 10 bytes.');
    expect(() => idAt(2 ** 48, new Uint8Array(10))).toThrow(RangeError);
  });

  it('made here come in order and are all different', () => {
    const made = Array.from({ length: 2000 }, newId);
    expect([...made].sort()).toEqual(made);
    expect(new Set(made).size).toBe(made.length);
  });
});

describe('what goes into the log', () => {
  it('is the canonical text of the event, hashed as a leaf', () => {
    const { event } = readFixture('invitation.used', 1);
    const entry = toLogEntry(event as never, 7);
    expect(entry.index).toBe(7);
    expect(entry.text.startsWith('{"about":"mira","at":"2026-03-03T10:00:00.000Z","body":')).toBe(
      true,
    );
    expect(entry.leafHash).toEqual(leafHash(utf8(entry.text)));
  });

  it('holds no name and no address in any fixture', () => {
    for (const { kind, version } of everyVersion) {
      const text = JSON.stringify(readFixture(kind, version).event);
      for (const name of ['Mira', 'Holt', 'Amsel', 'Okafor', '@'])
        expect(text, kind).not.toContain(name);
    }
  });
});
