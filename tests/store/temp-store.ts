import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { type DraftOf, newId } from '../../src/records/index.ts';
import { openSiteKey, openStore, type SiteKey, type Store } from '../../src/store/index.ts';

export type TempStore = {
  readonly folder: string;
  readonly file: string;
  readonly store: Store;
  readonly siteKey: SiteKey;
  /** Another connection to the same file, with rights to everything: what a tamperer has. */
  readonly openRaw: () => DatabaseSync;
  readonly remove: () => Promise<void>;
};

/** A store on a real SQLite file in a folder of its own. */
export async function makeTempStore(): Promise<TempStore> {
  const folder = mkdtempSync(join(tmpdir(), 'store-test-'));
  const file = join(folder, 'store.sqlite');
  const siteKey = await openSiteKey(join(folder, 'site-key.json'), file);
  const store = await openStore({ file }, siteKey);
  return {
    folder,
    file,
    store,
    siteKey,
    openRaw: () => new DatabaseSync(file),
    remove: async () => {
      await store.close().catch(() => undefined);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export const ORG = 'org-1';

/** A small event: an invitation made by `by`. */
export function draftInvitation(
  over: Partial<DraftOf<'invitation.made'>> = {},
): DraftOf<'invitation.made'> {
  return {
    id: newId(),
    kind: 'invitation.made',
    version: 1,
    org: ORG,
    at: '2026-03-03T09:30:00.000Z',
    by: 'person-1',
    about: null,
    body: { invitation: newId(), role: 'trainee' },
    ...over,
  };
}
