import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What belongs to keeping and erasing: words of earlier training, wishes to be erased, periods an organisation chose. */
export const privacyMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createTable('earlier_training')
      .addColumn('event', 'text', (column) => column.primaryKey().notNull())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('training', 'text', (column) => column.notNull())
      .addColumn('givenBy', 'text', (column) => column.notNull())
      .addColumn('paper', 'text', (column) => column.notNull())
      .addColumn('salt', 'text', (column) => column.notNull())
      .execute();
    await db.schema
      .createIndex('earlier_training_person')
      .on('earlier_training')
      .columns(['org', 'person'])
      .execute();

    await db.schema
      .createTable('erasure_wish')
      .addColumn('person', 'text', (column) =>
        column.primaryKey().notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('askedAt', 'text', (column) => column.notNull())
      .execute();

    await db.schema
      .createTable('retention_choice')
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('months', 'integer', (column) => column.notNull())
      .addColumn('setBy', 'text', (column) => column.notNull())
      .addColumn('setAt', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('retention_choice_once', ['org', 'kind'] as never[])
      .execute();
  },
};
