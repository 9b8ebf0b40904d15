import { spawn } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { whileNobodyBuilds } from './build-lock.ts';

/** What the built site is made from. The commands are not built. */
const SOURCES = ['src', 'content', 'public', 'astro.config.mjs', 'package-lock.json'];
const NOT_BUILT = new Set(['src/cli', 'src/deploy']);

/** Written when a build has finished, so that one which was stopped half-way is never served. */
const STAMP = 'dist/built.json';

/** Newest change among the sources below `path`, milliseconds. */
function newestChange(root: string, path: string): number {
  const full = join(root, path);
  if (NOT_BUILT.has(path) || !existsSync(full)) return 0;
  const found = statSync(full);
  if (!found.isDirectory()) return found.mtimeMs;
  // A folder's own time changes when a file in it is removed.
  return readdirSync(full).reduce(
    (newest, name) => Math.max(newest, newestChange(root, `${path}/${name}`)),
    found.mtimeMs,
  );
}

const newestSource = (root: string): number =>
  Math.max(...SOURCES.map((path) => newestChange(root, path)));

function builtFrom(root: string): number {
  try {
    const { sources } = JSON.parse(readFileSync(join(root, STAMP), 'utf8'));
    return typeof sources === 'number' ? sources : -1;
  } catch {
    return -1;
  }
}

/** Whether the pages have to be built before the site can start: never built, or the sources are newer. */
export function needsBuild(root: string): boolean {
  return newestSource(root) > builtFrom(root);
}

/** Runs the builder; resolves to what it said when it failed, null when all is well. */
async function runBuilder(root: string): Promise<string | null> {
  const said: string[] = [];
  const code = await new Promise<number | null>((resolve) => {
    const builder = spawn(
      process.execPath,
      [join(root, 'node_modules', 'astro', 'bin', 'astro.mjs'), 'build'],
      {
        cwd: root,
        // whoever asks, a test run for one, the pages are built for use: without places in source files
        env: { ...process.env, NODE_ENV: 'production', ASTRO_TELEMETRY_DISABLED: '1' },
      },
    );
    builder.stdout.on('data', (text) => said.push(String(text)));
    builder.stderr.on('data', (text) => said.push(String(text)));
    builder.on('error', (error) => said.push(error.message));
    builder.on('close', resolve);
  });
  return code === 0 ? null : said.join('');
}

/**
 * Builds the pages into dist, unless another process has just done it, and tells how long it takes.
 * Resolves to what the builder said when it failed, and to null when all is well.
 */
export async function buildSite(root: string, say: (text: string) => void): Promise<string | null> {
  return whileNobodyBuilds(root, async () => {
    if (!needsBuild(root)) return null;
    const sources = newestSource(root);
    const began = performance.now();
    const seconds = () => `${((performance.now() - began) / 1000).toFixed(0)} s`;
    say('Building the pages');
    const ticking = setInterval(() => say(` .. ${seconds()}`), 2_000);
    const problem = await runBuilder(root);
    clearInterval(ticking);
    say(problem === null ? ` .. done in ${seconds()}.\n` : ' .. failed.\n');
    if (problem === null) writeFileSync(join(root, STAMP), `${JSON.stringify({ sources })}\n`);
    return problem;
  });
}
