import { connect } from 'node:net';
import { DatabaseSync } from 'node:sqlite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { codeAt } from '../../../src/accounts/factors/one-time-codes.ts';
import {
  type LogLine,
  openLog,
  SECURITY_KINDS,
  SECURITY_RECORDS,
} from '../../../src/logging/index.ts';
import { endDeviceKey } from '../../../src/pages/_desk/end-device-key.ts';
import { receivePractical } from '../../../src/pages/_desk/receive-practical.ts';
import { EVENT_KINDS, newId } from '../../../src/records/index.ts';
import { DEMO_PASSWORD } from '../../helpers/site.ts';
import { makeSoftPasskey } from '../../helpers/soft-passkey.ts';
import { sheetNow } from '../../practical/after.ts';
import {
  enrolledKey,
  makeStatement,
  openStage,
  PASSWORD,
  signedRequest,
  ticketFor,
} from '../../practical/workshop.ts';
import { readOpenMetrics } from './read-open-metrics.ts';
import { type LoggedSite, startLogged } from './running-site.ts';

/**
 * Every kind of line about security, made happen through the running site; what takes a device that signs, in this
 * process. OWASP ASVS 5.0.0, 16.3.1 and 16.3.3: what to log is the list in src/logging/security-events.ts.
 */
const TOKEN = 'fedcba9876543210fedcba9876543210';
let site: LoggedSite;
/** Where a passkey can be used: a domain, never a bare address. */
let origin = '';
const told = new Set<string>();
beforeAll(async () => {
  site = await startLogged('demo', { METRICS_TOKEN: TOKEN, LOG_LEVEL: 'debug' });
  origin = `http://localhost:${site.port}`;
}, 120_000);
afterAll(() => site?.remove());

const at = (who: string): string => `${who}@alderlane.example`;
const security = (): LogLine[] => site.lines.filter(({ event }) => event === 'security');
type Said = readonly [kind: string, about?: string];

/** What was told about security while `work` ran, in its order. */
async function during<Value>(work: () => Promise<Value>): Promise<[Value, Said[]]> {
  const before = security().length;
  const value = await work();
  // a line comes over a pipe, a little after its reply
  await new Promise((wake) => setTimeout(wake, 120));
  const said = security().slice(before);
  for (const { kind } of said) told.add(kind ?? '');
  return [
    value,
    said.map(({ kind = '', factor, record }): Said => {
      const about = factor ?? record;
      return about === undefined ? [kind] : [kind, about];
    }),
  ];
}
const saidBy = async (work: () => Promise<unknown>): Promise<Said[]> => (await during(work))[1];

class Browser {
  cookies = new Map<string, string>();
  async ask(path: string, init: RequestInit = {}): Promise<Response> {
    const cookie = [...this.cookies].map(([name, value]) => `${name}=${value}`).join('; ');
    const headers = { origin, cookie, ...init.headers };
    const reply = await fetch(origin + path, { redirect: 'manual', ...init, headers });
    for (const one of reply.headers.getSetCookie()) {
      const [, name = '', value = ''] = /^([^=]+)=([^;]*)/.exec(one) ?? [];
      if (value === '') this.cookies.delete(name);
      else this.cookies.set(name, value);
    }
    return reply;
  }
  form(path: string, fields: Record<string, string>): Promise<Response> {
    return this.ask(path, { method: 'POST', body: new URLSearchParams(fields) });
  }
  json(path: string, value: unknown): Promise<Response> {
    const headers = { 'content-type': 'application/json' };
    return this.ask(path, { method: 'POST', headers, body: JSON.stringify(value) });
  }
  signIn(who: string, password = DEMO_PASSWORD): Promise<Response> {
    return this.form('/sign-in', { email: at(who), password });
  }
  step(code: string): Promise<Response> {
    return this.form('/sign-in', { do: 'step', code });
  }
}

/** Base 32 of RFC 4648. */
const fromBase32 = (text: string): Uint8Array =>
  Uint8Array.from(
    [...text.replaceAll(' ', '')]
      .map((sign) => 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567'.indexOf(sign).toString(2).padStart(5, '0'))
      .join('')
      .match(/.{8}/g) ?? [],
    (byte) => Number.parseInt(byte, 2),
  );

const challengeOf = async (browser: Browser, purpose: string): Promise<string> => {
  const reply = await browser.json('/api/passkeys/ask', { for: purpose });
  return ((await reply.json()) as { challenge: string }).challenge;
};

describe('a line is told', () => {
  it('of who comes in, by what, and of each refusal', async () => {
    const ruth = new Browser();
    expect(await saidBy(() => ruth.signIn('ruth.amsel', 'not my password'))).toEqual([
      ['sign-in-refused'],
    ]);
    expect(await saidBy(() => ruth.signIn('nobody.here'))).toEqual([['sign-in-refused']]);
    expect(await saidBy(() => ruth.signIn('ruth.amsel'))).toEqual([['signed-in', 'password']]);

    const fresh = (password: string) => ruth.form('/my-sign-in', { do: 'fresh', password });
    expect(await saidBy(() => fresh('not mine'))).toEqual([['proof-refused']]);
    expect(await saidBy(() => fresh(DEMO_PASSWORD))).toEqual([['proved-again', 'password']]);

    await ruth.form('/my-sign-in', { do: 'codes-begin' });
    const page = await (await ruth.ask('/my-sign-in')).text();
    const [, shown = ''] = /<code>([A-Z2-7 ]{39})<\/code>/.exec(page) ?? [];
    const secret = fromBase32(shown);
    const code = codeAt(secret, new Date());
    const [confirmed, said] = await during(() =>
      ruth.form('/my-sign-in', { do: 'codes-confirm', code }),
    );
    expect(said).toEqual([['recorded', 'sign-in.changed']]);
    const recovery = (await confirmed.text()).match(/<code>[^<]+<\/code>/g) ?? [];
    expect(recovery).toHaveLength(8);

    expect(await saidBy(() => ruth.form('/sign-out', {}))).toEqual([['signed-out']]);
    expect(await saidBy(() => ruth.signIn('ruth.amsel'))).toEqual([['second-step-asked']]);
    // it was used to put codes in force, so it does not count again
    expect(await saidBy(() => ruth.step(code))).toEqual([['second-step-refused']]);
    const written = (recovery[0] ?? '').replace(/<[^>]+>/g, '');
    expect(await saidBy(() => ruth.step(written))).toEqual([
      ['recorded', 'sign-in.changed'],
      ['signed-in', 'password-and-recovery-code'],
    ]);
    const again = new Browser();
    await again.signIn('ruth.amsel');
    const next = codeAt(secret, new Date(Date.now() + 30_000));
    expect(await saidBy(() => again.step(next))).toEqual([['signed-in', 'password-and-code']]);
    expect(await saidBy(() => again.form('/my-sign-in', { do: 'end-others' }))).toEqual([
      ['sessions-ended'],
    ]);
  }, 60_000);

  it('of a passkey that comes in, and of one that does not hold', async () => {
    const dev = new Browser();
    await dev.signIn('dev.pradhan');
    const passkey = makeSoftPasskey(origin);
    const answer = passkey.register(await challengeOf(dev, 'add'));
    const send = (what: string, given: unknown) =>
      dev.json('/api/passkeys/answer', { for: what, answer: given, name: 'Soft' });
    expect(await saidBy(() => send('add', answer))).toEqual([['recorded', 'sign-in.changed']]);
    const proof = passkey.answer(await challengeOf(dev, 'fresh'));
    expect(await saidBy(() => send('fresh', proof))).toEqual([['proved-again', 'passkey']]);
    await dev.form('/sign-out', {});
    const right = passkey.answer(await challengeOf(dev, 'sign-in'));
    const other = makeSoftPasskey(origin).answer(await challengeOf(dev, 'sign-in'));
    expect(await saidBy(() => send('sign-in', other))).toEqual([['passkey-refused']]);
    expect(await saidBy(() => send('sign-in', right))).toEqual([['signed-in', 'passkey']]);
  });

  it('of a try within the wait, which wrong ones bring', async () => {
    const guesser = new Browser();
    const kinds: string[] = [];
    for (let i = 0; i < 6; i++) {
      for (const [kind] of await saidBy(() => guesser.signIn('tom.okafor', `guess ${i}`))) {
        kinds.push(kind);
      }
    }
    expect(kinds).toEqual([...Array(5).fill('sign-in-refused'), 'locked-out']);
  });

  it('of what somebody signed in may not have', async () => {
    const mira = new Browser();
    await mira.signIn('mira.holt');
    expect(await saidBy(() => mira.ask('/board'))).toEqual([['not-permitted']]);
    const anna = new Browser();
    await anna.signIn('anna.weir');
    const [{ status }, said] = await during(() => anna.ask(`/people/${newId()}`));
    expect([status, said]).toEqual([404, [['not-permitted']]]);
    expect(await saidBy(() => mira.ask('/my-book'))).toEqual([]);
    const password = 'not the one of mira';
    const confirm = { password, statement: 'a'.repeat(64), key: null };
    expect(await saidBy(() => mira.json('/api/practicals/confirm', confirm))).toEqual([
      ['not-permitted'],
    ]);
  });

  it('of a wrong password on signing a record', async () => {
    const dev = new Browser();
    await dev.signIn('dev.pradhan');
    const confirm = { password: 'not of dev', statement: 'a'.repeat(64), key: null };
    expect(await saidBy(() => dev.json('/api/practicals/confirm', confirm))).toEqual([
      ['proof-refused'],
    ]);
  });

  it('of links that open nothing, and of what no page of ours sent', async () => {
    const stranger = new Browser();
    const secret = 'A'.repeat(43);
    for (const path of ['invitation/', 'new-password/', 'shared/']) {
      expect(await saidBy(() => stranger.ask(`/${path}${secret}`)), path).toEqual([
        ['link-refused'],
      ]);
    }
    expect(await saidBy(() => stranger.ask(`/calendar/${secret}.ics`))).toEqual([['link-refused']]);
    const elsewhere = { method: 'POST', headers: { origin: 'https://else.example' } };
    expect(await saidBy(() => stranger.ask('/sign-in', elsewhere))).toEqual([['from-elsewhere']]);
    expect(await saidBy(() => stranger.ask('/metrics'))).toEqual([['token-refused']]);
    const raw = (text: string) =>
      new Promise<void>((done) => {
        const socket = connect(site.port, '127.0.0.1', () => socket.end(text));
        socket.on('close', () => done()).resume();
      });
    expect(await saidBy(() => raw('GET / HTTP/1.1\r\nhost: else.example\r\n\r\n'))).toEqual([
      ['another-host'],
    ]);
    expect(await saidBy(() => raw('no request at all\r\n\r\n'))).toEqual([['not-http']]);
  });

  it('of a key that has ended, and a signature without its sign-in', async () => {
    const lines: LogLine[] = [];
    const stage = await openStage();
    const key = await enrolledKey(stage, 'Ruth Amsel');
    openLog('info', (line) => lines.push(line));
    const ruth = stage.as('Ruth Amsel');
    const send = async (ticket: string | null) => {
      const sheet = sheetNow(stage);
      const statement = makeStatement(stage, sheet, 'Ruth Amsel');
      const given = ticket ?? (await ticketFor(stage, 'Ruth Amsel', statement));
      lines.length = 0;
      await receivePractical(ruth, await signedRequest(statement, sheet, key, given), stage.site);
      for (const { kind } of lines) told.add(kind ?? '');
      return lines.map(({ kind }) => kind);
    };
    expect(await send('A'.repeat(43))).toEqual(['ticket-refused']);
    expect(await send(null)).toEqual([]);
    const form = { id: newId(), keyId: key.keyId, reason: 'lost', password: PASSWORD };
    lines.length = 0;
    await endDeviceKey(ruth, form, { address: null, headers: null }, stage.site);
    expect(lines.map(({ kind, record }) => record ?? kind)).toEqual([
      'proved-again',
      'device-key.ended',
    ]);
    expect(await send(null)).toEqual(['key-refused']);
    openLog('error', () => undefined);
    await stage.close();
  });
});

describe('these lines', () => {
  it('were each seen above, and name records there are', () => {
    expect([...told].sort()).toEqual(Object.keys(SECURITY_KINDS).sort());
    expect(Object.keys(EVENT_KINDS)).toEqual(expect.arrayContaining([...SECURITY_RECORDS]));
  });

  it('go with the line of their request, and hold nothing of anybody', () => {
    const requests = new Map(
      site.lines.flatMap((line) => (line.event === 'request' ? [[line.request, line]] : [])),
    );
    const fields = new Set<string>();
    for (const line of security()) {
      for (const name of Object.keys(line)) fields.add(name);
      expect(line.level).toBe('info');
      if (line.kind !== 'not-http') expect(requests.get(line.request)?.route).toBe(line.route);
    }
    expect([...fields].sort()).toEqual(
      ['count', 'event', 'factor', 'kind', 'level', 'record', 'request', 'route', 'time'].sort(),
    );
    const store = new DatabaseSync(`${site.data}/store.sqlite`, { readOnly: true });
    const people = store.prepare('select id, name, email from user').all();
    store.close();
    expect(people.length).toBeGreaterThan(5);
    const printed = site.printed();
    const known = people.flatMap((one) => Object.values(one).map(String));
    expect(known.filter((one) => printed.includes(one))).toEqual([]);
    expect(printed).not.toMatch(/alderlane|guess \d|127\.0\.0\.1|AAAAA/);
    expect(printed).not.toMatch(/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-/i);
  });

  it('are counted by kind in the metrics', async () => {
    const reply = await fetch(`${site.url}/metrics`, {
      headers: { authorization: `Bearer ${TOKEN}` },
    });
    const family = readOpenMetrics(await reply.text()).get('signed_to_saw_security_events');
    const counted = Object.fromEntries(
      (family?.samples ?? []).map(({ labels, value }) => [labels['kind'], value]),
    );
    const lines = Object.fromEntries(Object.keys(SECURITY_KINDS).map((kind) => [kind, 0]));
    for (const { kind = '', count = 1 } of security()) lines[kind] = (lines[kind] ?? 0) + count;
    expect(counted).toEqual(lines);
    expect(counted['sign-in-refused']).toBe(7);
  });
});
