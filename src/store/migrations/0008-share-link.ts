import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Links for an inspector: what each shows, until when, and how often it was opened. Only its hash is kept. */
export const shareLinkMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createTable('share_link')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('tokenHash', 'text', (column) => column.notNull().unique())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('madeBy', 'text', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addColumn('endsAt', 'text', (column) => column.notNull())
      .addColumn('endedAt', 'text')
      .addColumn('people', 'text', (column) => column.notNull())
      .addColumn('bench', 'text')
      .addColumn('purpose', 'text', (column) => column.notNull())
      .addColumn('openings', 'integer', (column) => column.notNull())
      .addColumn('unlogged', 'integer', (column) => column.notNull())
      .addColumn('loggedAt', 'text')
      .addColumn('openedAt', 'text')
      .execute();
  },
};
