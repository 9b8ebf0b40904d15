export { CannotStart, type RunningSite, runSite } from './run-site.ts';
export { isDatabaseUrl, readSettings, type Settings } from './settings.ts';
export {
  type PageHandler,
  type RunningServer,
  type ServerParts,
  startServer,
} from './start-server.ts';
export { readWatchSettings, UNWATCHED, type WatchSettings } from './watch-settings.ts';
