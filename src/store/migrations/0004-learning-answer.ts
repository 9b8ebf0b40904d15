import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { refuseChanges } from '../append-only.ts';

/** Answers given while learning: added and erased, never changed. The same id again is the same answer. */
export const learningAnswerMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.schema
      .createTable('learning_answer')
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('id', 'text', (column) => column.notNull())
      .addColumn('lesson', 'text', (column) => column.notNull())
      .addColumn('question', 'text', (column) => column.notNull())
      .addColumn('right', 'integer', (column) => column.notNull())
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('received', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('learning_answer_once', ['person', 'id'] as never[])
      .execute();
    await refuseChanges(db, 'learning_answer', ['update']);
  },
};
