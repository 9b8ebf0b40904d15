import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import {
  asJson,
  asText,
  describeError,
  log,
  makeRequestId,
  openLog,
} from '../../src/logging/index.ts';

const ROOT = join(import.meta.dirname, '../..');

describe('what the log keeps of an error', () => {
  it('is its class, its code and places in our own code', () => {
    const note = describeError(Object.assign(new TypeError('x'), { code: 'ENOSPC' }), ROOT);
    expect(note.kinds).toEqual(['TypeError']);
    expect(note.code).toBe('ENOSPC');
    expect(note.at[0]).toMatch(/^tests\/logging\/describe-error\.test\.ts:\d+:\d+$/);
    // the runner that called us is a package
    expect(note.at.join()).not.toMatch(/node_modules|node:/);
  });

  it('is never its message, whatever shape that has', () => {
    const typed = 'Mira Holt';
    const place = `    at ${typed} (${ROOT}/src/x.ts:1:1)`;
    for (const message of [typed, `line\n${typed}\nline`, `\n${place}\n`]) {
      const note = describeError(new Error(message, { cause: new RangeError(message) }), ROOT);
      expect(JSON.stringify(note)).not.toContain('Mira');
      expect(note.kinds).toEqual(['Error', 'RangeError']);
    }
  });

  it('names neither a class nor a code that holds more than letters', () => {
    const error = Object.assign(new Error('x'), {
      name: 'Mira Holt',
      code: 'mira@alderlane.example',
    });
    expect(JSON.stringify(describeError(error, ROOT))).not.toMatch(/mira/i);
    expect(describeError('mira@alderlane.example', ROOT)).toEqual({ kinds: ['string'], at: [] });
    expect(describeError(undefined, ROOT)).toEqual({ kinds: [], at: [] });
  });

  it('shows no folder of this machine', () => {
    expect(describeError(new Error('x'), ROOT).at.join()).not.toContain(ROOT);
    expect(describeError(new Error('x'), '/elsewhere').at).toEqual([]);
  });
});

describe('the log', () => {
  it('is written from its level up', () => {
    const seen: string[] = [];
    openLog('warn', (line) => seen.push(line.event));
    log('error', 'error');
    log('warn', 'not-ready');
    log('info', 'start');
    expect(seen).toEqual(['error', 'not-ready']);
  });

  it('is one line of JSON for programs, and words for a person', () => {
    const line = {
      time: '2026-03-03T09:30:00.000Z',
      level: 'info',
      event: 'request',
      request: 'abcde-fghjk',
      method: 'GET',
      route: '/people/[id]',
      status: 200,
      ms: 3.2,
    } as const;
    expect(JSON.parse(asJson(line))).toEqual(line);
    expect(asJson(line)).not.toContain('\n');
    expect(asText(line)).toBe('09:30:00  200 GET /people/[id]  3.2 ms');
    expect(asText({ ...line, status: 500 })).toContain('request abcde-fghjk');
    expect(asText({ ...line, route: '(file)' })).toBeNull();
  });

  it('numbers requests by signs that cannot be taken for each other', () => {
    const ids = Array.from({ length: 500 }, () => makeRequestId());
    expect(new Set(ids).size).toBe(500);
    for (const id of ids) expect(id).toMatch(/^[2-9a-hjkmnp-z]{5}-[2-9a-hjkmnp-z]{5}$/);
  });
});
