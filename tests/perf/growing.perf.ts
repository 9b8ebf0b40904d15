import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { Agent, request } from 'node:http';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { Client } from 'pg';
import { openSiteKey, openStore } from '../../src/store/index.ts';
import { NO_LIMITS } from '../access/site.ts';
import { hasPostgres, sharedDatabase } from '../helpers/postgres.ts';
import { startSite } from '../helpers/site.ts';
import { draftInvitation } from '../store/temp-store.ts';
import { makeLargeStore } from './large-store.ts';

Object.assign(process.env, NO_LIMITS);

/**
 * The numbers that src/deploy/growing.md rests on. Run by itself: node tests/perf/growing.perf.ts
 * It says the load of the machine beside them, since a number taken on a busy machine is worth less.
 */
const PEOPLE = 1_000;
const EVENTS = 100_000;
const APPENDS = 500;
const REQUESTS = 3_000;

const say = (text: string) => process.stdout.write(`${text}\n`);
const median = (values: number[]): number =>
  values.sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** Time of one append after another, ms. */
async function timeAppends(place: { file: string } | { url: string }, keyFile: string) {
  const store = await openStore(place, await openSiteKey(keyFile, false));
  const took: number[] = [];
  for (let i = 0; i < APPENDS; i++) {
    const began = performance.now();
    await store.append(draftInvitation());
    took.push(performance.now() - began);
  }
  await store.close();
  return median(took).toFixed(2);
}

function sayTables(file: string, events: number): void {
  const database = new DatabaseSync(file, { readOnly: true });
  const kinds = database
    .prepare(
      'select kind, count(*) n, avg(length(json)) b from event group by kind order by n desc limit 8',
    )
    .all();
  for (const { kind, n, b } of kinds) say(`  ${kind}: ${n} of ${Math.round(Number(b))} bytes`);
  database.close();
  say(
    `SQLite: ${Math.round(statSync(file).size / events)} bytes an event, indexes and tree included`,
  );
}

/** The same rows in PostgreSQL, entered many at a time: what they take there. */
async function sizeOnPostgres(file: string, url: string, events: number): Promise<void> {
  const database = new DatabaseSync(file, { readOnly: true });
  const client = new Client({ connectionString: url });
  await client.connect();
  for (const [table, columns] of [
    ['event', ['seq', 'id', 'org', 'kind', 'by', 'about', 'json']],
    ['tree_node', ['level', 'position', 'hash']],
  ] as const) {
    const names = columns.map((name) => `"${name}"`).join(', ');
    const next = database.prepare(
      `select rowid as place, ${names} from ${table} where rowid > ? order by rowid limit 1000`,
    );
    for (let after = table === 'event' ? -1 : 0; ; ) {
      const some = next.all(after);
      if (some.length === 0) break;
      after = Number(some.at(-1)?.['place']);
      const values = some.flatMap((row) => columns.map((name) => row[name]));
      const places = some.map(
        (_row, i) => `(${columns.map((_name, j) => `$${i * columns.length + j + 1}`).join(', ')})`,
      );
      await client.query(
        `insert into ${table} (${names}) values ${places.join(', ')} on conflict do nothing`,
        values,
      );
    }
  }
  const { rows } = await client.query(
    "select sum(pg_total_relation_size(c)) as bytes from unnest(array['event', 'tree_node']::regclass[]) c",
  );
  await client.end();
  database.close();
  say(
    `PostgreSQL: ${Math.round(Number(rows[0].bytes) / events)} bytes an event, indexes and tree included`,
  );
}

const agent = new Agent({ keepAlive: true, maxSockets: 20 });
const ask = (url: string, headers: Record<string, string>) =>
  new Promise<number>((done, fail) => {
    request(url, { agent, headers }, (reply) => {
      reply.resume();
      reply.on('end', () => done(reply.statusCode ?? 0));
    })
      .on('error', fail)
      .end();
  });

async function timeRequests(name: string, url: string, headers: Record<string, string> = {}) {
  const began = performance.now();
  const status = await ask(url, headers);
  for (let sent = 0; sent < REQUESTS; sent += 20) {
    await Promise.all(Array.from({ length: 20 }, () => ask(url, headers)));
  }
  const each = (performance.now() - began) / REQUESTS;
  say(`${name}: ${status}, ${each.toFixed(2)} ms each, ${Math.round(1_000 / each)} a second`);
}

async function timeSite(): Promise<void> {
  const site = await startSite('demo');
  try {
    say(`start: ${Math.round(site.startedIn)} ms, ${site.workedFor} ms of processor`);
    const { headers } = await fetch(`${site.url}/lessons/`);
    await timeRequests('a lesson list', `${site.url}/lessons/`);
    await timeRequests('the same, kept by whoever asks', `${site.url}/lessons/`, {
      'if-none-match': headers.get('etag') ?? '',
    });
    await timeRequests('the page to sign in', `${site.url}/sign-in`);
  } finally {
    agent.destroy();
    await site.stop();
  }
}

const place = mkdtempSync(join(tmpdir(), 'growing-'));
try {
  say(`${cpus().length} processors, load ${loadavg()[0]?.toFixed(1)}`);
  const file = join(place, 'store.sqlite');
  const made = await makeLargeStore(resolve(place), {
    people: PEOPLE,
    events: EVENTS,
    password: 'ripping fence and riving knife',
  });
  say(`${made.events} events of ${PEOPLE} people, ${made.bytesPerEvent} bytes of JSON each`);
  sayTables(file, made.events);
  say(
    `append on SQLite: median ${await timeAppends({ file: join(place, 'own.sqlite') }, join(place, 'own.json'))} ms`,
  );
  if (hasPostgres()) {
    const database = await sharedDatabase();
    say(
      `append on PostgreSQL: median ${await timeAppends({ url: database.url }, join(place, 'pg.json'))} ms`,
    );
    const other = await sharedDatabase();
    await (
      await openStore({ url: other.url }, await openSiteKey(join(place, 'pg2.json'), false))
    ).close();
    await sizeOnPostgres(file, other.url, made.events);
    await database.remove();
    await other.remove();
  }
  await timeSite();
  say(`load ${loadavg()[0]?.toFixed(1)}`);
} finally {
  rmSync(place, { recursive: true, force: true });
}
