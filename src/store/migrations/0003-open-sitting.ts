import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Forms being sat. `person` is unique: nobody sits two at once, whatever two tabs ask for. */
export const openSittingMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createTable('open_sitting')
      .addColumn('attempt', 'text', (column) => column.primaryKey().notNull())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('person', 'text', (column) =>
        column.notNull().unique().references('user.id').onDelete('cascade'),
      )
      .addColumn('blueprint', 'text', (column) => column.notNull())
      .addColumn('handInEvent', 'text', (column) => column.notNull())
      .addColumn('feedback', 'text', (column) => column.notNull())
      .addColumn('work', 'text', (column) => column.notNull())
      .addColumn('revision', 'integer', (column) => column.notNull())
      .addColumn('hold', 'text', (column) => column.notNull())
      .addColumn('contactAt', 'text')
      .addColumn('used', 'integer', (column) => column.notNull())
      .addColumn('away', 'integer', (column) => column.notNull())
      .addColumn('allowed', 'integer')
      .addColumn('extensions', 'integer', (column) => column.notNull())
      .addColumn('startedAt', 'text', (column) => column.notNull())
      .execute();
  },
};
