import { needsSetUp } from '../accounts/index.ts';
import { asJson, asText, log, logError, openLog, takeConsole } from '../logging/index.ts';
import { readOwnSettings } from './own-settings.ts';
import { type RunningSite, runSite, type SiteFolders } from './run-site.ts';
import type { WatchSettings } from './watch-settings.ts';

/** One line a time, straight to standard output. */
function openLogOf({ logLevel, logFormat }: WatchSettings): void {
  openLog(logLevel, (line) => {
    const text = logFormat === 'json' ? asJson(line) : asText(line);
    if (text !== null) process.stdout.write(`${text}\n`);
  });
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

/**
 * Serves the built site until the process is asked to end. The build packs it, with all that it needs, into one
 * graph with the pages: read from its sources it takes twice as long to start.
 * @param version of the site, as its package says
 * @throws CannotStart with one sentence
 */
export async function serve(folders: SiteFolders, version: string): Promise<void> {
  const { settings, watching } = readOwnSettings();
  openLogOf(watching);
  const site = await runSite(settings, folders, watching, version);
  stopWhenAsked(site);
  for (const sentence of site.unprotected) console.error(sentence);
  if (watching.logFormat === 'text') await greet(site.address.origin);
  takeConsole();
}
