import type { Site } from '../../src/accounts/index.ts';
import { dailyList } from '../../src/pages/_desk/check-bench.ts';
import { newId } from '../../src/records/index.ts';

/** How many events the log holds, of one kind when told. */
export async function countEvents({ store }: Site, kind?: string): Promise<number> {
  let count = 0;
  for await (const { text } of store.readAll()) {
    if (kind === undefined || JSON.parse(text).kind === kind) count += 1;
  }
  return count;
}

/** A daily check with everything sound, as the form sends it. */
export function makeCheck(site: Site, bench: string, over: Record<string, unknown> = {}) {
  const list = dailyList(site);
  return {
    id: newId(),
    bench,
    listVersion: String(list.version),
    checks: Object.fromEntries(list.checks.map(({ id }) => [id, { result: 'sound', note: '' }])),
    verdict: 'fit',
    takeOut: 'no',
    reason: '',
    ...over,
  };
}

/** The day, and the time of day in UTC, so many minutes ago, as a form sends them. */
export function minutesAgo(minutes: number): { readonly day: string; readonly time: string } {
  const at = new Date(Date.now() - minutes * 60_000).toISOString();
  return { day: at.slice(0, 10), time: at.slice(11, 16) };
}
