export { CannotStart } from './cannot-start.ts';
export { readOwnSettings } from './own-settings.ts';
export { type RunningSite, runSite } from './run-site.ts';
export { serve } from './serve.ts';
export { isDatabaseUrl, readSettings, type Settings } from './settings.ts';
export {
  type PageHandler,
  type RunningServer,
  type ServerParts,
  startServer,
} from './start-server.ts';
export { readWatchSettings, UNWATCHED, type WatchSettings } from './watch-settings.ts';
