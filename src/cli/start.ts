import { resolve } from 'node:path';
import { needsSetUp } from '../accounts/index.ts';
import { CannotStart, type RunningSite, readSettings, runSite } from '../server/index.ts';
import { buildSite, needsBuild } from './build-site.ts';

const ROOT = resolve(import.meta.dirname, '../..');

async function startSite(): Promise<RunningSite> {
  const read = readSettings(process.env);
  if (!read.ok) throw new CannotStart(read.message);
  if (needsBuild(ROOT)) {
    const problem = await buildSite(ROOT, (text) => process.stdout.write(text));
    if (problem !== null) throw new CannotStart(`The pages could not be built:\n${problem}`);
  }
  return runSite(read.settings, {
    distDir: resolve(ROOT, 'dist'),
    contentDir: resolve(ROOT, 'content'),
  });
}

function stopOnSignal(site: RunningSite): void {
  let stopping = false;
  const stop = () => {
    // A second Ctrl+C does not wait for slow requests.
    if (stopping) process.exit(1);
    stopping = true;
    console.log('Stopping.');
    site.stop().then(
      () => process.exit(0),
      (error: unknown) => {
        console.error(error);
        process.exit(1);
      },
    );
  };
  process.on('SIGINT', stop);
  process.on('SIGTERM', stop);
}

try {
  const site = await startSite();
  stopOnSignal(site);
  console.log(`Signed to Saw is running at ${site.address.origin}`);
  if (await needsSetUp()) {
    console.log(
      `First step: open ${site.address.origin}/set-up to enter your workshop and its first trainer, or to fill the invented one.`,
    );
  }
  console.log('Stop it with Ctrl+C.');
} catch (error) {
  const reason = error instanceof Error ? error.message : String(error);
  console.error(error instanceof CannotStart ? reason : `The site could not start: ${reason}`);
  process.exitCode = 1;
}
