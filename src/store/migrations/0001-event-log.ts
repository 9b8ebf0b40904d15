import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { refuseChanges } from '../append-only.ts';

export const eventLogMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createTable('event')
      .addColumn('seq', 'integer', (column) => column.primaryKey())
      .addColumn('id', 'text', (column) => column.notNull().unique())
      .addColumn('org', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('by', 'text', (column) => column.notNull())
      .addColumn('about', 'text')
      .addColumn('json', 'text', (column) => column.notNull())
      .execute();
    for (const columns of [
      ['org', 'kind', 'seq'],
      ['org', 'about', 'seq'],
      ['org', 'by', 'seq'],
    ]) {
      await db.schema
        .createIndex(`event_${columns.join('_')}`)
        .on('event')
        .columns(columns)
        .execute();
    }

    await db.schema
      .createTable('tree_node')
      .addColumn('level', 'integer', (column) => column.notNull())
      .addColumn('position', 'integer', (column) => column.notNull())
      .addColumn('hash', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('tree_node_place', ['level', 'position'])
      .execute();

    await db.schema
      .createTable('log_head')
      .addColumn('log', 'integer', (column) => column.primaryKey())
      .addColumn('size', 'integer', (column) => column.notNull())
      .addColumn('root', 'text', (column) => column.notNull())
      .addColumn('note', 'text', (column) => column.notNull())
      .execute();

    await refuseChanges(db, 'event');
    await refuseChanges(db, 'tree_node');
  },
};
