import type { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';

/**
 * Sessions kept as hashes with what ends them, second steps, passkeys, codes and links for a new password.
 * Sessions from before lay in clear, so they end here and everybody signs in once more.
 */
export const entryMigration: Migration = {
  async up(db: Kysely<never>) {
    await db.deleteFrom('session' as never).execute();
    for (const [name, standard] of [
      ['seenAt', ''],
      ['freshAt', ''],
      ['role', ''],
      ['level', 'full'],
      ['device', 'computer'],
    ] as const) {
      await db.schema
        .alterTable('session')
        .addColumn(name, 'text', (column) => column.notNull().defaultTo(standard))
        .execute();
    }

    await db.schema
      .createTable('sign_in_step')
      .addColumn('tokenHash', 'text', (column) => column.primaryKey().notNull())
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('expiresAt', 'text', (column) => column.notNull())
      .execute();

    await db.schema
      .createTable('passkey_challenge')
      .addColumn('challengeHash', 'text', (column) => column.primaryKey().notNull())
      .addColumn('purpose', 'text', (column) => column.notNull())
      .addColumn('person', 'text', (column) => column.references('user.id').onDelete('cascade'))
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('expiresAt', 'text', (column) => column.notNull())
      .execute();

    await db.schema
      .createTable('passkey')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('credential', 'text', (column) => column.notNull().unique())
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('publicKey', 'text', (column) => column.notNull())
      .addColumn('counter', 'integer', (column) => column.notNull())
      .addColumn('transports', 'text', (column) => column.notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addColumn('usedAt', 'text')
      .execute();
    await db.schema.createIndex('passkey_person').on('passkey').column('person').execute();

    await db.schema
      .createTable('code_maker')
      .addColumn('person', 'text', (column) =>
        column.primaryKey().notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('sealedSecret', 'text', (column) => column.notNull())
      .addColumn('lastStep', 'integer', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addColumn('confirmedAt', 'text')
      .execute();

    await db.schema
      .createTable('recovery_code')
      .addColumn('codeHash', 'text', (column) => column.primaryKey().notNull())
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addColumn('usedAt', 'text')
      .execute();
    await db.schema
      .createIndex('recovery_code_person')
      .on('recovery_code')
      .column('person')
      .execute();

    await db.schema
      .createTable('reset_link')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('tokenHash', 'text', (column) => column.notNull().unique())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('clears', 'text', (column) => column.notNull())
      .addColumn('madeBy', 'text', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addColumn('expiresAt', 'text', (column) => column.notNull())
      .addColumn('endedAt', 'text')
      .addColumn('usedAt', 'text')
      .addColumn('toldAt', 'text')
      .execute();
    await db.schema.createIndex('reset_link_person').on('reset_link').column('person').execute();
  },
};
