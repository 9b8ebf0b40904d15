import { monitorEventLoopDelay } from 'node:perf_hooks';
import type { CountedBy } from '../../accounts/index.ts';
import { securityCounts } from '../../logging/index.ts';
import { type Family, type Labels, makeCounter, makeGauge, makeHistogram } from './families.ts';
import { writeOpenMetrics } from './open-metrics.ts';

export type StoreNumbers = {
  /** records in the log */
  readonly events: number;
  readonly openSittings: number;
  /** connections to the database by what they do; null where the engine has one for all */
  readonly connections: {
    readonly used: number;
    readonly idle: number;
    readonly waiting: number;
  } | null;
};

export type SiteMetrics = {
  readonly observeRequest: (
    request: { readonly route: string; readonly method: string; readonly status: number },
    seconds: number,
  ) => void;
  /** one transaction of the store, seconds */
  readonly observeWrite: (seconds: number) => void;
  readonly startRequest: () => void;
  /** a request that was one too many, of a person or of an address */
  readonly countLimited: (by: CountedBy) => void;
  /** OpenMetrics text, with the numbers of the store read at this moment */
  readonly write: () => Promise<string>;
  readonly close: () => void;
};

/** Bounds in seconds: half of what a person calls at once, up to what nobody waits for. */
const REQUEST_BOUNDS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10];
const WRITE_BOUNDS = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.5, 1, 5];
const METHODS = new Set(['GET', 'HEAD', 'POST', 'PUT', 'DELETE', 'OPTIONS', 'PATCH']);
const NANOSECONDS = 1e9;
const MICROSECONDS = 1e6;

/** How often it is looked whether the process is late, ms: a look in time is that long after the one before. */
const LOOKED_EVERY_MS = 20;
const lateness = (nanoseconds: number): number =>
  Math.max(0, nanoseconds / NANOSECONDS - LOOKED_EVERY_MS / 1_000);

const single = (value: number | null): [Labels, number | null][] => [[{}, value]];

function processFamilies(): { families: Family[]; close: () => void } {
  const delay = monitorEventLoopDelay({ resolution: LOOKED_EVERY_MS });
  delay.enable();
  const begun = Date.now() / 1_000 - process.uptime();
  const families = [
    makeGauge(
      { name: 'process_resident_memory_bytes', unit: 'bytes', help: 'Memory of the process.' },
      () => single(process.memoryUsage.rss()),
    ),
    makeGauge(
      { name: 'process_heap_used_bytes', unit: 'bytes', help: 'Memory in use by its objects.' },
      () => single(process.memoryUsage().heapUsed),
    ),
    makeGauge(
      { name: 'process_start_time_seconds', unit: 'seconds', help: 'When it began, since 1970.' },
      () => single(Number(begun.toFixed(3))),
    ),
    makeGauge(
      {
        name: 'signed_to_saw_event_loop_delay_seconds',
        unit: 'seconds',
        help: 'How late the process turns to its next work, since the process began.',
      },
      () =>
        [50, 99, 100].map((share) => [
          { share: `${share}` },
          Number.isFinite(delay.mean) ? lateness(delay.percentile(share)) : null,
        ]),
    ),
    {
      name: 'process_cpu_seconds',
      type: 'counter',
      unit: 'seconds',
      help: 'Time the processor worked for it.',
      samples() {
        const { user, system } = process.cpuUsage();
        return [{ suffix: '_total', labels: {}, value: (user + system) / MICROSECONDS }];
      },
    } satisfies Family,
  ];
  return { families, close: () => delay.disable() };
}

/** @param readStore the numbers of the store, asked for each time; what it throws means they are not known */
export function makeSiteMetrics(
  version: string,
  readStore: () => Promise<StoreNumbers>,
): SiteMetrics {
  let store: StoreNumbers | null = null;
  let running = 0;
  const requests = makeCounter({
    name: 'signed_to_saw_http_requests',
    help: 'Requests answered, by pattern of the address, method and class of the status.',
  });
  const durations = makeHistogram(
    {
      name: 'signed_to_saw_http_request_duration_seconds',
      unit: 'seconds',
      help: 'From the head of a request to the end of its reply.',
    },
    REQUEST_BOUNDS,
  );
  const refused = makeCounter(
    {
      name: 'signed_to_saw_sign_ins_refused',
      help: 'Sign-ins refused: wrong, or too many tries.',
    },
    [{}],
  );
  const limited = makeCounter(
    {
      name: 'signed_to_saw_requests_limited',
      help: 'Requests refused as too many in a minute, by what they are counted against.',
    },
    [{ by: 'person' }, { by: 'address' }],
  );
  const writes = makeHistogram(
    {
      name: 'signed_to_saw_store_write_duration_seconds',
      unit: 'seconds',
      help: 'One transaction that writes, waiting for its turn included.',
    },
    WRITE_BOUNDS,
    [{}],
  );
  const own = processFamilies();
  const families: Family[] = [
    {
      name: 'signed_to_saw_build',
      type: 'info',
      help: 'Which version of the site this is.',
      samples: () => [{ suffix: '_info', labels: { version }, value: 1 }],
    },
    requests.family,
    durations.family,
    makeGauge(
      { name: 'signed_to_saw_http_requests_running', help: 'Requests being answered now.' },
      () => single(running),
    ),
    refused.family,
    {
      name: 'signed_to_saw_security_events',
      type: 'counter',
      help: 'What bears on security, by kind, as the lines of the log name it.',
      samples: () =>
        [...securityCounts()].map(([kind, value]) => ({
          suffix: '_total',
          labels: { kind },
          value,
        })),
    },
    limited.family,
    makeGauge({ name: 'signed_to_saw_store_up', help: '1 while the store answers.' }, () =>
      single(store === null ? 0 : 1),
    ),
    makeGauge({ name: 'signed_to_saw_log_events', help: 'Records in the log.' }, () =>
      single(store?.events ?? null),
    ),
    makeGauge({ name: 'signed_to_saw_open_sittings', help: 'Tests begun and not handed in.' }, () =>
      single(store?.openSittings ?? null),
    ),
    writes.family,
    makeGauge(
      { name: 'signed_to_saw_database_connections', help: 'Connections to the database server.' },
      () => Object.entries(store?.connections ?? {}).map(([state, count]) => [{ state }, count]),
    ),
    ...own.families,
  ];
  return {
    startRequest: () => {
      running += 1;
    },
    observeRequest({ route, method, status }, seconds) {
      running -= 1;
      const labels = { route, method: METHODS.has(method) ? method : 'other' };
      requests.add({ ...labels, status: `${Math.floor(status / 100)}xx` });
      durations.observe(seconds, { route });
      if (isRefusedSignIn({ route, method, status })) refused.add();
    },
    observeWrite: writes.observe,
    countLimited: (by) => limited.add({ by }),
    async write() {
      store = await readStore().catch(() => null);
      return writeOpenMetrics(families);
    },
    close: own.close,
  };
}

/** Whether a request was a sign-in that was refused, by whatever page it came through. */
export function isRefusedSignIn(request: {
  readonly route: string;
  readonly method: string;
  readonly status: number;
}): boolean {
  const { route, method, status } = request;
  return (
    method === 'POST' && /^(\/[a-z]{2})?\/sign-in(\/|$)/.test(route) && [401, 429].includes(status)
  );
}
