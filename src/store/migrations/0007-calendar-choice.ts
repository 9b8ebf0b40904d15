import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** What a calendar address tells: in which language, and whether it names people and work. */
export const calendarChoiceMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .alterTable('calendar_address')
      .addColumn('language', 'text', (column) => column.notNull().defaultTo('en'))
      .execute();
    await db.schema
      .alterTable('calendar_address')
      .addColumn('names', 'text', (column) => column.notNull().defaultTo('opaque'))
      .execute();
  },
};
