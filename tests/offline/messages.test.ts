import { globSync, readFileSync } from 'node:fs';
import { resolve, sep } from 'node:path';
import { beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';

const keep = vi.hoisted(() => ({
  keepBench: vi.fn(async () => undefined),
  keepCourse: vi.fn(async () => undefined),
  keepSheet: vi.fn(async () => undefined),
  removeAll: vi.fn(async () => undefined),
}));
vi.mock('../../src/offline/keep.ts', () => keep);
vi.mock('../../src/offline/built.ts', () => {
  const none = { pages: [], files: [], bytes: 0 };
  const BUILT = { version: '1', languages: {}, asked: {}, benches: none, sheet: none };
  return { BUILT, LANGUAGES: [], isHashed: () => false };
});

const HERE = 'https://saw.example';
const ROOT = resolve(import.meta.dirname, '../..');
type Message = { data: unknown; origin: string; waitUntil: (work: Promise<unknown>) => void };
let listen: (event: Message) => void = () => undefined;

beforeAll(async () => {
  vi.stubGlobal('location', { origin: HERE });
  vi.stubGlobal('clients', { claim: async () => undefined, matchAll: async () => [] });
  vi.stubGlobal('addEventListener', (name: string, on: typeof listen) => {
    if (name === 'message') listen = on;
  });
  await import('../../src/offline/worker.ts');
});
beforeEach(() => vi.clearAllMocks());

const send = (data: unknown, origin = HERE) => listen({ data, origin, waitUntil: () => undefined });
const called = () =>
  Object.entries(keep).flatMap(([name, one]) => one.mock.calls.map((given) => [name, ...given]));

/** OWASP ASVS 5.0.0, 3.5.5: of an origin that is not trusted, or of no known shape, a message is dropped. */
describe('a message to the worker', () => {
  it('from a page of this site does what it asks', () => {
    send({ do: 'keep', language: 'de' });
    send({ do: 'keep-bench', path: '/de/bench/' });
    send({ do: 'keep-sheet' });
    send({ do: 'remove' });
    expect(called().sort()).toEqual([
      ['keepBench', '/de/bench'],
      ['keepCourse', 'de'],
      ['keepSheet'],
      ['removeAll'],
    ]);
  });

  it.each([
    'https://else.example',
    'https://saw.example.else.example',
    'http://saw.example',
    'null',
    '',
  ])('from %s is dropped', (origin) => {
    send({ do: 'remove' }, origin);
    send({ do: 'keep', language: 'en' }, origin);
    expect(called()).toEqual([]);
  });

  it.each([
    [null],
    ['remove'],
    [['remove']],
    [{}],
    [{ do: 'empty' }],
    [{ do: ['remove'] }],
    [{ do: 'keep' }],
    [{ do: 'keep', language: ['en'] }],
    [{ do: 'keep', language: 'x'.repeat(500) }],
    [{ do: 'keep-bench', path: 'https://else.example/bench/' }],
    [{ do: 'keep-bench', path: 7 }],
  ])('of no known shape is dropped: %j', (data) => {
    send(data);
    expect(called()).toEqual([]);
  });
});

describe('nothing else of the site', () => {
  it('listens to other windows', () => {
    const listening = globSync('src/**/*.{ts,tsx,astro,mjs}', { cwd: ROOT })
      .map((file) => file.split(sep).join('/'))
      .filter((file) =>
        /addEventListener\(\s*'message'|\bonmessage\b|'messageerror'/.test(
          readFileSync(resolve(ROOT, file), 'utf8'),
        ),
      );
    // the worker; a page hearing its own worker; pages of one browser and site among themselves, who say nothing
    expect(listening.sort()).toEqual([
      'src/offline/worker.ts',
      'src/panels/offline/kept-course.ts',
      'src/panels/signing/store/waiting.ts',
    ]);
  });
});
