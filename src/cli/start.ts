import { resolve } from 'node:path';
import { needsSetUp } from '../accounts/index.ts';
import { asJson, asText, log, logError, openLog, takeConsole } from '../logging/index.ts';
import {
  CannotStart,
  type RunningSite,
  readSettings,
  readWatchSettings,
  runSite,
  type WatchSettings,
} from '../server/index.ts';
import { buildSite, needsBuild } from './build-site.ts';
import { SITE_FOLDERS, SITE_ROOT, siteVersion } from './site-folders.ts';

/**
 * Starts the site. `--built` serves the pages as they were built, for a place where nothing can be built.
 * Standard output is for people at a terminal and JSON lines otherwise; problems go to standard error.
 */

function readWatch(): WatchSettings {
  const read = readWatchSettings(process.env, { terminal: process.stdout.isTTY === true });
  if (!read.ok) throw new CannotStart(read.message);
  return read.settings;
}

/** One line a time, straight to standard output. */
function openLogOf({ logLevel, logFormat }: WatchSettings): void {
  openLog(logLevel, (line) => {
    const text = logFormat === 'json' ? asJson(line) : asText(line);
    if (text !== null) process.stdout.write(`${text}\n`);
  });
}

async function startSite(watching: WatchSettings): Promise<RunningSite> {
  const read = readSettings(process.env);
  if (!read.ok) throw new CannotStart(read.message);
  if (!process.argv.includes('--built') && needsBuild(SITE_ROOT)) {
    // not among the lines of the log, where a program reads them
    const tell = watching.logFormat === 'json' ? process.stderr : process.stdout;
    const problem = await buildSite(SITE_ROOT, (text) => tell.write(text));
    if (problem !== null) throw new CannotStart(`The pages could not be built:\n${problem}`);
  }
  const folders = { ...SITE_FOLDERS, contentDir: resolve(SITE_FOLDERS.contentDir) };
  return runSite(read.settings, folders, watching, siteVersion());
}

type Why = 'SIGTERM' | 'SIGINT' | 'error';

/** Ends the site once: running requests finish, the store closes. A second signal does not wait. */
function stopWhenAsked(site: RunningSite): void {
  let stopping = false;
  const stop = (signal: Why): void => {
    if (stopping) process.exit(1);
    stopping = true;
    log('info', 'stop', { signal });
    site.stop().then(
      () => process.exit(signal === 'error' ? 1 : 0),
      (error: unknown) => {
        logError(error);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', () => stop('SIGINT'));
  process.on('SIGTERM', () => stop('SIGTERM'));
  for (const fault of ['uncaughtException', 'unhandledRejection'] as const) {
    process.on(fault, (error: unknown) => {
      // what state the process is in is not known any more
      logError(error);
      stop('error');
    });
  }
}

async function greet(origin: string): Promise<void> {
  const say = (text: string) => process.stdout.write(`${text}\n`);
  say(`Signed to Saw is running at ${origin}`);
  if (await needsSetUp()) {
    say(
      `First step: open ${origin}/set-up to enter your workshop and its first trainer, or to fill the invented one.`,
    );
  }
  say('Stop it with Ctrl+C.');
}

try {
  const watching = readWatch();
  openLogOf(watching);
  const site = await startSite(watching);
  stopWhenAsked(site);
  for (const sentence of site.unprotected) console.error(sentence);
  if (watching.logFormat === 'text') await greet(site.address.origin);
  takeConsole();
} catch (error) {
  const reason = error instanceof Error ? error.message : String(error);
  console.error(error instanceof CannotStart ? reason : `The site could not start: ${reason}`);
  process.exitCode = 1;
}
