import { type ChildProcess, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { makeBackup, restoreBackup } from '../store/backup/index.ts';
import { saidPlainly, sayBytes, sayTime } from './backup-arguments.ts';
import { makeProgressLine } from './progress-line.ts';
import { BadInput, locate, runCommand } from './read-input.ts';
import { readOptions } from './read-options.ts';
import { dataFolder, SITE_ROOT, siteVersion } from './site-folders.ts';

/**
 * The restore drill: backs up, restores into a temporary place, audits, compares, starts the site there and
 * asks whether it is well. Exit code 0: all of it worked; 1: not; 2: bad input.
 */

const USAGE =
  'Usage: npm run --silent drill -- [--data FOLDER] [--in FOLDER] [--into URL]   (--in: a folder with room for two copies; --into: an empty database, with DATABASE_URL)';

function readWords(words: readonly string[]) {
  return readOptions(
    {
      args: [...words],
      options: {
        data: { type: 'string' },
        in: { type: 'string' },
        into: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
      },
    },
    USAGE,
  ).values;
}

type Answers = { readonly well: boolean; readonly events: number };

/** Waits for the line of the log that says which port a site has. */
async function portOf(child: ChildProcess): Promise<number> {
  const lines = createInterface({ input: child.stdout as NodeJS.ReadableStream });
  for await (const text of lines) {
    const line: { event?: string; port?: number } = JSON.parse(text);
    if (line.event === 'start') return line.port ?? 0;
  }
  throw new BadInput('The site did not start on what was restored; start it there to see why.');
}

/** Starts the site on what was restored as it is always started, asks it, and stops it. */
async function startOn(dataDir: string, database?: string): Promise<Answers> {
  const token = randomBytes(32).toString('hex');
  const env: NodeJS.ProcessEnv = {
    ...process.env,
    DATA_DIR: dataDir,
    HOST: '127.0.0.1',
    PORT: '0',
    METRICS_PORT: '',
    METRICS_TOKEN: token,
    SITE_URL: '',
    LOG_FORMAT: 'json',
    LOG_LEVEL: 'info',
  };
  if (database !== undefined) {
    // the owner belongs to the database that was backed up
    Object.assign(env, { DATABASE_URL: database, DATABASE_OWNER_URL: '' });
  }
  const child = spawn(process.execPath, [join(SITE_ROOT, 'src/cli/start.ts')], {
    cwd: SITE_ROOT,
    env,
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  try {
    const address = `http://127.0.0.1:${await portOf(child)}`;
    child.stdout?.resume();
    const health = await fetch(`${address}/api/health`);
    const metrics = await fetch(`${address}/metrics`, {
      headers: { authorization: `Bearer ${token}` },
    });
    const [, events] = /^signed_to_saw_log_events (\d+)$/m.exec(await metrics.text()) ?? [];
    return { well: health.ok, events: Number(events ?? -1) };
  } finally {
    child.kill('SIGTERM');
    await ended;
  }
}

type Drill = { readonly dataDir: string; readonly from?: string; readonly into?: string };

async function drillIn(place: string, { dataDir, from, into }: Drill): Promise<number> {
  const { tell, show, clear } = makeProgressLine();
  const say = (text: string) => process.stdout.write(`${text}\n`);
  const began = performance.now();
  const copy = join(place, 'backup');
  const restored = join(place, 'data');
  const { log, files } = await saidPlainly(
    makeBackup({
      dataDir,
      folder: copy,
      version: siteVersion(),
      now: new Date(),
      tell,
      ...(from === undefined ? {} : { databaseUrl: from }),
    }),
  ).finally(clear);
  const bytes = files.reduce((sum, file) => sum + file.bytes, 0);
  say(`backup    ${sayTime(performance.now() - began)}  ${log.size} events, ${sayBytes(bytes)}`);
  const { took } = await saidPlainly(
    restoreBackup({
      folder: copy,
      dataDir: restored,
      tell,
      ...(into === undefined ? {} : { databaseUrl: into }),
    }),
  ).finally(clear);
  say(`digests   ${sayTime(took.check)}  as the manifest says`);
  say(`copy      ${sayTime(took.copy)}`);
  say(`audit     ${sayTime(took.audit)}  size, root and checkpoint as the manifest says`);
  const starting = performance.now();
  show('Starting the site on what was restored');
  const { well: isWell, events } = await startOn(restored, into).finally(clear);
  const well = isWell && events === log.size;
  say(
    `start     ${sayTime(performance.now() - starting)}  /api/health ${isWell ? 'ok' : 'NOT ok'}, ${events} events`,
  );
  const whole = sayTime(performance.now() - began);
  say(well ? `The drill worked, in ${whole}.` : 'The drill did NOT work.');
  return well ? 0 : 1;
}

async function drill(words: readonly string[]): Promise<number> {
  const asked = readWords(words);
  if (asked.help === true) {
    process.stdout.write(`${USAGE}\n`);
    return 0;
  }
  const within = asked.in === undefined ? tmpdir() : locate(asked.in);
  if (!existsSync(within)) throw new BadInput(`${within} is not there; name a folder with --in.`);
  const from = process.env['DATABASE_OWNER_URL'] || process.env['DATABASE_URL'] || undefined;
  if ((from === undefined) !== (asked.into === undefined)) {
    throw new BadInput(
      `A store in a database is drilled into an empty database: give --into with DATABASE_URL, and not without. ${USAGE}`,
    );
  }
  const databases = from === undefined ? {} : { from, into: asked.into as string };
  const place = mkdtempSync(join(within, 'restore-drill-'));
  try {
    return await drillIn(place, { dataDir: dataFolder(asked.data), ...databases });
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

await runCommand(drill, 'The drill did not work');
