import { gunzipSync } from 'node:zlib';
import type { Kit } from '../../../src/panels/signing/index.ts';
import { statementHashOf } from '../../../src/panels/signing/index.ts';
import {
  type Ask,
  draftSigned,
  enrolDevice,
  writeSignOff,
} from '../../helpers/signed-practical.ts';
import { DEMO_PASSWORD } from '../../helpers/site.ts';
import { type Client, json } from './client.ts';

/** Replies may come packed: gzip begins with these two bytes (RFC 1952). */
const unpack = (body: Buffer): string =>
  (body[0] === 0x1f && body[1] === 0x8b ? gunzipSync(body) : body).toString();

/** Something done many times over: prepared outside the clock, sent inside it. */
export type Prepared = () => Promise<number>;

async function expectOk(client: Client, path: string, value?: unknown): Promise<number> {
  const { status, body, ms } = await (value === undefined
    ? client.send('GET', path)
    : client.send('POST', path, json(value)));
  if (status >= 300) throw new Error(`${path} answered ${status}: ${unpack(body).slice(0, 200)}`);
  return ms;
}

/** A page as text. */
export const readText = async (client: Client, path: string): Promise<string> =>
  unpack((await client.send('GET', path)).body);

export const readOnce =
  (client: Client, path: string): Prepared =>
  () =>
    expectOk(client, path);

const askAs = (client: Client): Ask => {
  const read = async <Value>(path: string, value?: unknown): Promise<Value> => {
    const { body } = await (value === undefined
      ? client.send('GET', path)
      : client.send('POST', path, json(value)));
    return JSON.parse(unpack(body)) as Value;
  };
  return { get: (path) => read(path), post: (path, value) => read(path, value) };
};

/** A bench given and walked round, ready to be handed in. */
export async function prepareHandIn(trainee: Client): Promise<Prepared> {
  const { token } = await askAs(trainee).post<{ token: string }>('/api/attempts', {
    task: 'walk-round',
  });
  const claims = [{ part: 'guard', fault: 'guard-missing', remedy: 'put-right' }];
  const work = { token, actions: [{ do: 'isolate' }, { do: 'look', at: 'guard' }], claims };
  return () => expectOk(trainee, '/api/attempts/submit', work);
}

/** Practicals watched and signed on the trainer's device, ready to be sent: 12 tickets to a password. */
export async function prepareSignings(trainer: Client, count: number): Promise<Prepared[]> {
  const ask = askAs(trainer);
  const kit = await ask.get<Kit>('/api/kit');
  const key = await enrolDevice(ask);
  const ready: Prepared[] = [];
  while (ready.length < count) {
    const written = Array.from({ length: Math.min(12, count - ready.length) }, () =>
      writeSignOff(kit, 'Mira Holt'),
    );
    const statements = written.map(({ statement }) => statementHashOf(statement));
    const { tickets } = await ask.post<{ tickets: string[] }>('/api/practicals/confirm', {
      password: DEMO_PASSWORD,
      statements,
      key: null,
    });
    for (const [at, { sheet, statement }] of written.entries()) {
      const sent = { event: await draftSigned(statement, key), sheet, ticket: tickets[at] };
      ready.push(() => expectOk(trainer, '/api/practicals', sent));
    }
  }
  return ready;
}
