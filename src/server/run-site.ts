import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { openSite, useSite } from '../accounts/index.ts';
import { isStoreUnusable } from '../store/index.ts';
import type { Settings } from './settings.ts';
import { type PageHandler, startServer } from './start-server.ts';
import { readStaticFiles } from './static-files.ts';

export type RunningSite = {
  readonly address: URL;
  /** Finishes what is running, closes the store, then ends. */
  readonly stop: () => Promise<void>;
};

/** The site cannot start; the message is one sentence for whoever started it. */
export class CannotStart extends Error {
  override readonly name = 'CannotStart';
}

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

/**
 * Opens the store, loads the built pages and listens.
 * @throws CannotStart with one sentence; nothing is left open then
 */
export async function runSite(
  settings: Settings,
  folders: { readonly distDir: string; readonly contentDir: string },
): Promise<RunningSite> {
  const pages = await loadPages(folders.distDir);
  const site = await openSite({
    dataDir: settings.dataDir,
    contentDir: folders.contentDir,
    address: settings.siteUrl ?? new URL('http://localhost'),
  }).catch((error: unknown) => {
    throw isStoreUnusable(error) ? new CannotStart(error.message) : error;
  });
  useSite(site);
  try {
    const files = readStaticFiles(join(folders.distDir, 'client'));
    const server = await startServer({ settings, pages, files });
    const stop = async () => {
      await server.stop();
      await site.store.close();
    };
    return { address: server.address, stop };
  } catch (error) {
    await site.store.close();
    throw new CannotStart(explainListening(error, settings));
  }
}
