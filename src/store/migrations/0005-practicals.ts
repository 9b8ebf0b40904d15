import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { refuseChanges } from '../append-only.ts';

/** What belongs to practicals and boards and may be erased: photos, groups, and addresses of calendars. */
export const practicalsMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createTable('photo')
      .addColumn('digest', 'text', (column) => column.notNull())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('signoff', 'text', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('type', 'text', (column) => column.notNull())
      .addColumn('bytes', 'blob', (column) => column.notNull())
      .addColumn('received', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('photo_once', ['org', 'digest', 'signoff'] as never[])
      .execute();
    await refuseChanges(db, 'photo', ['update']);

    await db.schema
      .createTable('person_group')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addUniqueConstraint('person_group_name', ['org', 'name'] as never[])
      .execute();
    await db.schema
      .createTable('person_group_member')
      .addColumn('group', 'text', (column) =>
        column.notNull().references('person_group.id').onDelete('cascade'),
      )
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addPrimaryKeyConstraint('person_group_member_once', ['group', 'person'] as never[])
      .execute();

    await db.schema
      .createTable('calendar_address')
      .addColumn('tokenHash', 'text', (column) => column.primaryKey().notNull())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('person', 'text', (column) =>
        column.notNull().unique().references('user.id').onDelete('cascade'),
      )
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .execute();
  },
};
