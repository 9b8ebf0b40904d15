import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  makeRequestLimit,
  openSite,
  type Site,
  sweepDaily,
  useRequestLimit,
  useSite,
} from '../accounts/index.ts';
import { log } from '../logging/index.ts';
import { countStore, isStoreUnusable, listUnprotected, type Store } from '../store/index.ts';
import { CannotStart } from './cannot-start.ts';
import { tellInTheOpen } from './database-url.ts';
import { openMetricsDoor } from './metrics/metrics-door.ts';
import { makeSiteMetrics, type SiteMetrics } from './metrics/site-metrics.ts';
import { makeReadiness } from './readiness.ts';
import type { Settings } from './settings.ts';
import { type PageHandler, startServer } from './start-server.ts';
import { readStaticFiles } from './static-files.ts';
import { UNWATCHED, type WatchSettings } from './watch-settings.ts';

export type RunningSite = {
  readonly address: URL;
  /** What the database does not hold against the role the site runs as, a sentence each. */
  readonly unprotected: readonly string[];
  /** Finishes what is running, closes the store, then ends. */
  readonly stop: () => Promise<void>;
};

/** Where what is built lies, and the content as it is written. */
export type SiteFolders = { readonly distDir: string; readonly contentDir: string };

function explainListening(error: unknown, { port, host }: Settings): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  const other = 'set PORT to another number from 1024 to 65535';
  switch (code) {
    case 'EADDRINUSE':
      return `Port ${port} on ${host} is taken by another program; stop that program or ${other}.`;
    case 'EACCES':
      return `This user may not listen on port ${port}; ${other}.`;
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
    case 'EAI_AGAIN':
      return `HOST ${host} is not an address of this machine; set HOST to 127.0.0.1, 0.0.0.0 or one of its own addresses.`;
    default:
      return `The site cannot listen on ${host}, port ${port}: ${error instanceof Error ? error.message : String(error)}.`;
  }
}

async function loadPages(distDir: string): Promise<PageHandler> {
  const entry = resolve(distDir, 'server', 'entry.mjs');
  if (!existsSync(entry)) {
    throw new CannotStart(`There is no built site in ${distDir}; run npm run build.`);
  }
  const built: { handler: PageHandler } = await import(pathToFileURL(entry).href);
  return built.handler;
}

/** The store with a clock on each of its transactions. */
function timeWrites(store: Store, metrics: SiteMetrics): Store {
  const timed = async <Result>(work: Promise<Result>): Promise<Result> => {
    const began = performance.now();
    try {
      return await work;
    } finally {
      metrics.observeWrite((performance.now() - began) / 1_000);
    }
  };
  return {
    ...store,
    append: (draft) => timed(store.append(draft)),
    write: (work) => timed(store.write(work)),
  };
}

async function openWatchedSite(
  settings: Settings,
  contentDir: string,
  version: string,
): Promise<{ site: Site; metrics: SiteMetrics }> {
  const opened = await openSite({
    dataDir: settings.dataDir,
    contentDir,
    address: settings.siteUrl ?? new URL('http://localhost'),
    database: settings.database ?? null,
  }).catch((error: unknown) => {
    throw isStoreUnusable(error) ? new CannotStart(error.message) : error;
  });
  const metrics = makeSiteMetrics(version, () => countStore(opened.store));
  return { site: { ...opened, store: timeWrites(opened.store, metrics) }, metrics };
}

async function openDoor(metrics: SiteMetrics, port: number | null) {
  if (port === null) return { close: async () => undefined };
  return openMetricsDoor(metrics, port).catch(() => {
    throw new CannotStart(
      `The metrics cannot be given on port ${port} of this machine; set METRICS_PORT to a free one from 1 to 65535.`,
    );
  });
}

/**
 * Opens the store, loads the built pages and listens.
 * @param watching how the site is watched over; nothing but its readiness when not given
 * @throws CannotStart with one sentence; nothing is left open then
 */
export async function runSite(
  settings: Settings,
  folders: SiteFolders,
  watching: WatchSettings = UNWATCHED,
  version = '',
): Promise<RunningSite> {
  const pages = await loadPages(folders.distDir);
  const { site, metrics } = await openWatchedSite(settings, folders.contentDir, version);
  useSite(site);
  const { requestLimits } = settings;
  useRequestLimit(
    requestLimits === undefined ? null : makeRequestLimit(requestLimits, metrics.countLimited),
  );
  const place = { dataDir: settings.dataDir, diskFloor: watching.diskFloor };
  const watch = {
    metrics,
    metricsToken: watching.metricsToken,
    askReady: makeReadiness(site, place),
  };
  const endAll = async () => {
    useRequestLimit(null);
    metrics.close();
    await site.store.close();
  };
  try {
    const files = readStaticFiles(join(folders.distDir, 'client'));
    const door = await openDoor(metrics, watching.metricsPort);
    const server = await startServer({ settings, pages, files, watch }).catch(async (error) => {
      await door.close();
      throw new CannotStart(explainListening(error, settings));
    });
    const stopSweeping = sweepDaily(site.store.db);
    log('info', 'start', { port: server.port, version });
    const stop = async () => {
      stopSweeping();
      await server.stop(watching.stopGraceMs);
      await door.close();
      await endAll();
    };
    const { database } = settings;
    const unprotected = database === undefined ? [] : await listUnprotected(site.store.db);
    const open = database === undefined ? null : tellInTheOpen(database.url);
    if (open !== null) unprotected.push(open);
    return { address: server.address, unprotected, stop };
  } catch (error) {
    await endAll();
    throw error;
  }
}
