import { readFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { DEMO_PASSWORD, type Site, startSite } from '../helpers/site.ts';
import { makeLargeStore } from './large-store.ts';
import { type Client, median, quantile, signInAs, visit } from './load/client.ts';
import { type Prepared, prepareHandIn, prepareSignings, readOnce, readText } from './load/tasks.ts';

type Say = (line: string) => void;
const count = (name: string, usual: number): number => Number(process.env[name] ?? usual);

const TIMES = count('LOAD_TIMES', 200);
const PEOPLE = count('LOAD_PEOPLE', 10_000);
const EVENTS = count('LOAD_EVENTS', 1_000_000);
const REQUESTS = count('LOAD_REQUESTS', 200_000);
const TRAINEES = count('LOAD_TRAINEES', 200);
const SECONDS = count('LOAD_SECONDS', 60);
const BARE = '/api/health';

async function timeOf(tasks: readonly Prepared[]): Promise<number[]> {
  const figures: number[] = [];
  for (const task of tasks) figures.push(await task());
  return figures;
}

/** The same task again and again, with the bare endpoint between, so that a busy moment hits both. */
async function against(
  say: Say,
  title: string,
  bare: Prepared,
  tasks: readonly Prepared[],
): Promise<void> {
  const empty: number[] = [];
  const full: number[] = [];
  for (const task of tasks) {
    empty.push(await bare());
    full.push(await task());
  }
  const [base, is] = [median(empty), median(full)];
  say(
    `${title}: ${is.toFixed(2)} ms, ${(is / base).toFixed(1)} times the bare endpoint's ${base.toFixed(2)} ms (medians of ${tasks.length}; slowest of a hundred ${quantile(full, 0.99).toFixed(1)} ms)`,
  );
}

const times = (task: Prepared, often: number): Prepared[] =>
  Array.from({ length: often }, () => task);
const numbered = (one: number): string => `large-${String(one).padStart(6, '0')}`;
const emailOf = (who: string): string => `${who}@alderlane.example`;

async function runOnSmall(say: Say): Promise<void> {
  const site = await startSite('demo');
  const clients: Client[] = [];
  const keep = <One extends Client>(one: One): One => {
    clients.push(one);
    return one;
  };
  try {
    const nobody = keep(visit(site.url));
    const bare = readOnce(nobody, BARE);
    const lesson = readOnce(nobody, '/lessons/kickback/');
    await timeOf([...times(bare, 200), ...times(lesson, 50)]);
    await against(say, 'opening a lesson', bare, times(lesson, TIMES));
    const mira = keep(await signInAs(site.url, emailOf('mira.holt'), DEMO_PASSWORD));
    const handIns: Prepared[] = [];
    for (let one = 0; one < TIMES; one++) handIns.push(await prepareHandIn(mira));
    await against(say, 'submitting an attempt', bare, handIns);
    const ruth = keep(await signInAs(site.url, emailOf('ruth.amsel'), DEMO_PASSWORD));
    await against(say, 'signing (one statement)', bare, await prepareSignings(ruth, TIMES));
    const anna = keep(await signInAs(site.url, emailOf('anna.weir'), DEMO_PASSWORD));
    await against(say, 'the matrix, small shop', bare, times(readOnce(anna, '/who-may'), 50));
  } finally {
    for (const client of clients) client.close();
    await site.stop();
  }
}

const residentMb = (site: Site): number => {
  const status = readFileSync(`/proc/${site.pid()}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024;
};

/** Many requests of every kind in a row; the memory of the process after each tenth of them. */
async function runMemory(say: Say): Promise<void> {
  const site = await startSite(async (data) => {
    await makeLargeStore(data, {
      people: TRAINEES,
      events: 100 * TRAINEES,
      password: DEMO_PASSWORD,
    });
    giveSignIns(data, TRAINEES);
  });
  const anna = await signInAs(site.url, emailOf('anna.weir'), DEMO_PASSWORD, 16);
  const trainees: Client[] = [];
  for (let one = 1; one <= Math.min(TRAINEES, 20); one++) {
    trainees.push(await signInAs(site.url, emailOf(numbered(one)), DEMO_PASSWORD));
  }
  let turn = 0;
  const somebody = () => trainees[turn++ % trainees.length] as Client;
  const nobody = visit(site.url, 16);
  const mix: Prepared[] = [
    ...times(readOnce(nobody, '/lessons/kickback/'), 12),
    ...times(readOnce(nobody, BARE), 4),
    readOnce(anna, '/who-may'),
    () => readOnce(somebody(), '/my-book')(),
    () => readOnce(somebody(), '/api/people/me')(),
    () => prepareHandIn(somebody()).then((handIn) => handIn()),
  ];
  try {
    // what is remembered of the log is full from the first request on, and grows no more as the log does
    await readOnce(anna, '/my-data/organisation.json')();
    let sent = 0;
    const memory: number[] = [];
    const worker = async (): Promise<void> => {
      while (sent < REQUESTS) {
        const at = sent++;
        if (at % Math.floor(REQUESTS / 20) === 0) {
          memory.push(residentMb(site));
          say(`${at} of ${REQUESTS} requests sent, ${memory.at(-1)?.toFixed(0)} MB`);
        }
        await (mix[at % mix.length] as Prepared)();
      }
    };
    const began = performance.now();
    await Promise.all(Array.from({ length: 16 }, worker));
    memory.push(residentMb(site));
    const rate = REQUESTS / ((performance.now() - began) / 1000);
    const half = memory.slice(Math.floor(memory.length / 2));
    say(
      `memory over ${REQUESTS} requests at ${rate.toFixed(0)} a second: ${memory.map((mb) => mb.toFixed(0)).join(' ')} MB; second half from ${half[0]?.toFixed(0)} to ${half.at(-1)?.toFixed(0)} MB`,
    );
  } finally {
    for (const client of [anna, nobody, ...trainees]) client.close();
    await site.stop();
  }
}

/** The made-up trainees get the password of one who has signed up, so that they can sign in as anybody does. */
function giveSignIns(data: string, people: number): void {
  const database = new DatabaseSync(join(data, 'store.sqlite'));
  database.exec(`
    insert into account (id, accountId, providerId, userId, password, createdAt, updatedAt)
    select 'account-' || m.id, m.id, 'credential', m.id, a.password, a.createdAt, a.updatedAt
    from (select id from user where id like 'large-%' order by id limit ${people}) m,
      (select * from account order by createdAt limit 1) a`);
  database.close();
}

const pause = (ms: number): Promise<void> => new Promise((wake) => setTimeout(wake, ms));

/** Reads, takes a bench, hands it in, looks at the book; with the pauses of a person between. */
async function study(trainee: Client, until: number, note: (name: string, ms: number) => void) {
  while (Date.now() < until) {
    await pause(Math.random() * 4_000);
    note('lesson', await readOnce(trainee, '/lessons/kickback/')());
    await pause(Math.random() * 2_000);
    const began = performance.now();
    const handIn = await prepareHandIn(trainee);
    note('take a bench', performance.now() - began);
    await pause(Math.random() * 4_000);
    note('hand in', await handIn());
    await pause(Math.random() * 2_000);
    note('my book', await readOnce(trainee, '/my-book')());
  }
}

/** Whether the matrix says that not everybody is counted yet. */
async function isCounting(client: Client): Promise<boolean> {
  return (await readText(client, '/who-may')).includes('are counted so far');
}

async function runOnLarge(say: Say): Promise<void> {
  const site = await startSite(async (data) => {
    const made = await makeLargeStore(data, {
      people: PEOPLE,
      events: EVENTS,
      password: DEMO_PASSWORD,
    });
    giveSignIns(data, TRAINEES);
    say(
      `a shop of ${made.people} people and ${made.events} events of ${made.bytesPerEvent} bytes, made in ${made.seconds.toFixed(0)} s`,
    );
  });
  const clients: Client[] = [];
  try {
    const nobody = visit(site.url);
    const bare = readOnce(nobody, BARE);
    const anna = await signInAs(site.url, emailOf('anna.weir'), DEMO_PASSWORD);
    const ruth = await signInAs(site.url, emailOf('ruth.amsel'), DEMO_PASSWORD);
    clients.push(nobody, anna, ruth);
    const matrix = readOnce(anna, '/who-may');
    say(`the matrix, first time: ${(await matrix()).toFixed(0)} ms`);
    const counting = performance.now();
    await against(say, 'the matrix while everybody is counted', bare, times(matrix, 5));
    while (await isCounting(anna)) await pause(500);
    const counted = (performance.now() - counting) / 1000;
    say(`everybody was counted ${counted.toFixed(0)} s after the first page`);
    await against(say, 'the matrix, large shop', bare, times(matrix, 30));
    await against(say, 'signing, large shop', bare, await prepareSignings(ruth, 30));
    say(`memory after that: ${residentMb(site).toFixed(0)} MB`);

    const trainees: Client[] = [];
    for (let one = 1; one <= TRAINEES; one++) {
      trainees.push(await signInAs(site.url, emailOf(numbered(one)), DEMO_PASSWORD));
    }
    clients.push(...trainees);
    const figures = new Map<string, number[]>();
    const note = (name: string, ms: number) => {
      for (const one of [name, 'all of it']) {
        figures.set(one, [...(figures.get(one) ?? []), ms]);
      }
    };
    const until = Date.now() + SECONDS * 1000;
    await Promise.all(trainees.map((trainee) => study(trainee, until, note)));
    for (const [name, all] of figures) {
      say(
        `${TRAINEES} trainees at once, ${name}: median ${median(all).toFixed(1)} ms, slowest of a hundred ${quantile(all, 0.99).toFixed(1)} ms, of ${all.length}`,
      );
    }
  } finally {
    for (const client of clients) client.close();
    await site.stop();
  }
}

/** `npm run perf -- load`: the site by its own command, asked over HTTP. Ratios carry over; times do not. */
export async function runLoadPerf(say: Say, only?: string): Promise<void> {
  say(`load average at the start: ${loadavg()[0]?.toFixed(2)}`);
  if (only === undefined || only === 'small') await runOnSmall(say);
  if (only === undefined || only === 'large') await runOnLarge(say);
  if (only === undefined || only === 'memory') await runMemory(say);
}
