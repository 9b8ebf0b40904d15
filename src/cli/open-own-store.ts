import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readSettings, type Settings } from '../server/index.ts';
import { openSiteKey, openStore, type Store } from '../store/index.ts';
import { BadInput } from './read-input.ts';

/**
 * The store that the environment names, as the site itself would open it, for a command to work on and close. Not
 * `openSite`, which forgets what has expired while it opens.
 * @throws BadInput: settings that cannot be used, or a folder without a store
 */
export async function openOwnStore(): Promise<{
  readonly store: Store;
  readonly settings: Settings;
}> {
  const read = readSettings(process.env);
  if (!read.ok) throw new BadInput(read.message);
  const { settings } = read;
  const { dataDir, database } = settings;
  const file = join(dataDir, 'store.sqlite');
  if (!database && !existsSync(file))
    throw new BadInput(`${dataDir} holds no store; set DATA_DIR.`);
  const siteKey = await openSiteKey(join(dataDir, 'site-key.json'), true);
  return { store: await openStore(database ?? { file }, siteKey), settings };
}
