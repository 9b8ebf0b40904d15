import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { runSite } from '../server/index.ts';
import { makeBackup, restoreBackup } from '../store/backup/index.ts';
import { saidPlainly, sayBytes, sayTime } from './backup-arguments.ts';
import { BadInput, locate, runCommand } from './read-input.ts';
import { dataFolder, SITE_FOLDERS, siteVersion } from './site-folders.ts';

/**
 * The restore drill: backs up, restores into a temporary place, audits, compares, starts the site there and
 * asks whether it is well. Exit code 0: all of it worked; 1: not; 2: bad input.
 */

const USAGE =
  'Usage: npm run --silent drill -- [--data FOLDER] [--in FOLDER]   (--in: a folder with room for two copies)';

function readWords(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      options: {
        data: { type: 'string' },
        in: { type: 'string' },
        help: { type: 'boolean', short: 'h' },
      },
    }).values;
  } catch (error) {
    const [reason = 'The options cannot be read'] = (error as Error).message.split(/[.\n]/);
    throw new BadInput(`${reason}. ${USAGE}`);
  }
}

/** Starts the site on a restored folder, asks for its health, and stops it. */
async function startOn(dataDir: string): Promise<boolean> {
  const settings = { port: 0, host: '127.0.0.1', dataDir, siteUrl: null };
  const site = await runSite(settings, SITE_FOLDERS);
  try {
    const reply = await fetch(new URL('/api/health', site.address));
    return reply.ok;
  } finally {
    await site.stop();
  }
}

async function drillIn(place: string, dataDir: string): Promise<number> {
  const say = (text: string) => process.stdout.write(`${text}\n`);
  const began = performance.now();
  const copy = join(place, 'backup');
  const restored = join(place, 'data');
  const { log, files } = await saidPlainly(
    makeBackup({ dataDir, folder: copy, version: siteVersion(), now: new Date() }),
  );
  const bytes = files.reduce((sum, file) => sum + file.bytes, 0);
  say(`backup    ${sayTime(performance.now() - began)}  ${log.size} events, ${sayBytes(bytes)}`);
  const { took } = await saidPlainly(restoreBackup({ folder: copy, dataDir: restored }));
  say(`digests   ${sayTime(took.check)}  as the manifest says`);
  say(`copy      ${sayTime(took.copy)}`);
  say(`audit     ${sayTime(took.audit)}  size, root and checkpoint as the manifest says`);
  const starting = performance.now();
  const well = await startOn(restored);
  say(`start     ${sayTime(performance.now() - starting)}  /api/health ${well ? 'ok' : 'NOT ok'}`);
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
  const place = mkdtempSync(join(within, 'restore-drill-'));
  try {
    return await drillIn(place, dataFolder(asked.data));
  } finally {
    rmSync(place, { recursive: true, force: true });
  }
}

await runCommand(drill, 'The drill did not work');
