import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Pause between two looks at a lock somebody else holds, milliseconds. */
const LOOK_AGAIN_MS = 100;

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // EPERM: it runs, as somebody else.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

function takeLock(file: string): boolean {
  try {
    writeFileSync(file, String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false;
    throw error;
  }
}

/** A lock left by a process that no longer runs is in nobody's hands. */
function removeStaleLock(file: string): void {
  let holder: number;
  try {
    holder = Number(readFileSync(file, 'utf8'));
  } catch {
    return;
  }
  // Nothing written yet: its holder is just taking it.
  if (holder > 0 && !isRunning(holder)) rmSync(file, { force: true });
}

/** Runs `work` while no other process builds below `root`, waiting for one that does. */
export async function whileNobodyBuilds<Result>(
  root: string,
  work: () => Promise<Result>,
): Promise<Result> {
  const folder = join(root, '.astro');
  const file = join(folder, 'build.lock');
  mkdirSync(folder, { recursive: true });
  while (!takeLock(file)) {
    removeStaleLock(file);
    await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
  }
  try {
    return await work();
  } finally {
    rmSync(file, { force: true });
  }
}
