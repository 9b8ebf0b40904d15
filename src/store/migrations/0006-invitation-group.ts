import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/** The group somebody is put into when they use their invitation; nothing where there is none. */
export const invitationGroupMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .alterTable('invitation')
      .addColumn('group', 'text', (column) =>
        column.references('person_group.id').onDelete('set null'),
      )
      .execute();
  },
};
