import { describe, expect, it } from 'vitest';
import { connect } from '../../src/panels/bench/work/server.ts';
import { shelfIn } from '../../src/panels/bench/work/shelf.ts';
import { makeStarted } from './fake-bench-server.ts';

const reply = (status: number, body: string) => async () =>
  new Response(body, { status, headers: { 'content-type': 'application/json' } });

describe('the line to the server', () => {
  it('posts what was done as JSON to the address of each question', async () => {
    const seen: [string, unknown][] = [];
    const server = connect(async (path, request) => {
      seen.push([String(path), JSON.parse(String(request?.body))]);
      return new Response('{}', { status: 200 });
    });
    await server.start('walk-round');
    await server.verdict('t', [{ do: 'isolate' }]);
    const said = [{ id: 'chip', value: 0.1, after: 0 }];
    await server.handIn('t', [], [{ part: 'blade', fault: 'f', remedy: 'r' }], said);
    expect(seen).toEqual([
      ['/api/attempts', { task: 'walk-round' }],
      ['/api/attempts/verdict', { token: 't', actions: [{ do: 'isolate' }] }],
      [
        '/api/attempts/submit',
        { token: 't', actions: [], claims: [{ part: 'blade', fault: 'f', remedy: 'r' }], said },
      ],
    ]);
  });

  it('quotes the server’s own sentence', async () => {
    const said = { error: { path: 'token', message: 'Take a fresh bench.' } };
    const answer = await connect(reply(410, JSON.stringify(said))).start('x');
    expect(answer).toEqual({
      ok: false,
      kind: 'refused',
      message: 'Take a fresh bench.',
      path: 'token',
    });
  });

  it.each([
    ['a page instead of JSON', 200, '<html></html>'],
    ['an empty reply', 200, ''],
    ['a broken gateway', 502, '<html></html>'],
    ['an error with no sentence', 503, '{"error":"no"}'],
    ['a bare number', 200, '7'],
  ])('tells %s as something to try again', async (_, status, body) => {
    const answer = await connect(reply(status, body)).start('x');
    expect(answer).toMatchObject({ ok: false, kind: 'offline' });
    expect(answer.ok ? '' : answer.message).toContain(String(status));
  });

  it('tells a lost network in one sentence', async () => {
    const answer = await connect(async () => {
      throw new TypeError('fetch failed');
    }).start('x');
    expect(answer).toMatchObject({ ok: false, kind: 'offline' });
    expect(answer.ok ? '' : answer.message).not.toContain('TypeError');
  });
});

describe('the shelf in the browser', () => {
  const storage = (items: Map<string, string>) =>
    ({
      getItem: (key: string) => items.get(key) ?? null,
      setItem: (key: string, value: string) => void items.set(key, value),
    }) as unknown as Storage;
  const kept = {
    version: 1,
    started: makeStarted(),
    actions: [],
    claims: [],
    draft: { part: '', fault: '', remedy: '' },
    outcome: null,
  } as const;

  it('keeps each task apart', () => {
    const items = new Map<string, string>();
    const shelf = shelfIn(() => storage(items), 'walk-round');
    expect(shelf.write(kept)).toBe(true);
    expect(shelf.read()).toEqual(kept);
    expect(shelfIn(() => storage(items), 'knife-and-guard').read()).toBeNull();
  });

  it.each([
    'not JSON',
    'null',
    '7',
    '{"version":2}',
    '{"version":1,"actions":[],"claims":[]}',
    '{"version":1,"actions":[],"claims":[],"started":{"token":1}}',
  ])('takes %s as empty', (text) => {
    const shelf = shelfIn(() => storage(new Map([['bench-task:x', text]])), 'x');
    expect(shelf.read()).toBeNull();
  });

  it('says that nothing is kept where storage is refused', () => {
    const shelf = shelfIn(() => {
      throw new DOMException('refused', 'SecurityError');
    }, 'x');
    expect(shelf.write(kept)).toBe(false);
    expect(shelf.read()).toBeNull();
  });
});
