import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { serve } from '../server/index.ts';
import { buildSite, needsBuild } from './build-site.ts';
import { SITE_FOLDERS, SITE_ROOT, siteVersion } from './site-folders.ts';

/**
 * Starts the site. `--built` serves the pages as they were built, for a place where nothing can be built.
 * Standard output is for people at a terminal and JSON lines otherwise; problems go to standard error.
 */

/** Resolves to why the site cannot start, or null. A setting that is wrong is told before anybody waits. */
async function build(): Promise<string | null> {
  // read only here: it takes as long as the built site takes to start
  const { readOwnSettings } = await import('../server/index.ts');
  const { watching } = readOwnSettings();
  // not among the lines of the log, where a program reads them
  const tell = watching.logFormat === 'json' ? process.stderr : process.stdout;
  const problem = await buildSite(SITE_ROOT, (text) => tell.write(text));
  return problem === null ? null : `The pages could not be built:\n${problem}`;
}

async function start(): Promise<string | null> {
  if (!process.argv.includes('--built') && needsBuild(SITE_ROOT)) {
    const problem = await build();
    if (problem !== null) return problem;
  }
  const { contentDir, distDir } = SITE_FOLDERS;
  const file = join(distDir, 'server', 'serve.mjs');
  if (!existsSync(file)) return `There is no built site in ${distDir}; run npm run build.`;
  const built: { serve: typeof serve } = await import(pathToFileURL(file).href);
  await built.serve({ distDir, contentDir: resolve(contentDir) }, siteVersion());
  return null;
}

/** The built site has its own copy of what it throws: known by its name. */
function explain(error: unknown): string {
  if (!(error instanceof Error)) return `The site could not start: ${String(error)}`;
  return error.name === 'CannotStart'
    ? error.message
    : `The site could not start: ${error.message}`;
}

const problem = await start().catch(explain);
if (problem !== null) {
  console.error(problem);
  process.exitCode = 1;
}
