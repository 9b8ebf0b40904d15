import type { Kysely } from 'kysely';
import { Migrator } from 'kysely/migration';
import { log } from '../logging/index.ts';
import { MIGRATIONS } from './migrations/index.ts';
import type { Tables } from './tables.ts';

/** Brings the tables up to this version of the site, in one transaction. Throws the database's own error. */
export async function migrateToLatest(db: Kysely<Tables>): Promise<void> {
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => ({ ...MIGRATIONS }) },
  });
  const { error, results = [] } = await migrator.migrateToLatest();
  for (const { migrationName, status } of results) {
    if (status === 'Success') log('info', 'migration', { migration: migrationName });
  }
  if (error !== undefined) throw error;
}
