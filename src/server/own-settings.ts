import { CannotStart } from './cannot-start.ts';
import { readSettings, type Settings } from './settings.ts';
import { readWatchSettings, type WatchSettings } from './watch-settings.ts';

/**
 * What the environment of this process asks for.
 * @throws CannotStart with the sentence on the first setting that is wrong
 */
export function readOwnSettings(): {
  readonly settings: Settings;
  readonly watching: WatchSettings;
} {
  const watching = readWatchSettings(process.env, { terminal: process.stdout.isTTY === true });
  if (!watching.ok) throw new CannotStart(watching.message);
  const settings = readSettings(process.env);
  if (!settings.ok) throw new CannotStart(settings.message);
  return { settings: settings.settings, watching: watching.settings };
}
