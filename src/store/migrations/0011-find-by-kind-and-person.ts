import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** Who an event is about, by its kind: answered from the index alone, without the rows of a large log. */
export const findByKindAndPersonMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createIndex('event_org_kind_about_seq')
      .on('event')
      .columns(['org', 'kind', 'about', 'seq'])
      .execute();
  },
};
