import { type Kysely, sql } from 'kysely';
import type { Migration } from 'kysely/migration';

const ROLES = sql`role in ('trainee', 'trainer', 'employer')`;

/**
 * user, session, account and verification are the tables better-auth 1.7 asks for, under its own names;
 * a test lets the library compare them with what it expects. The rest is ours.
 */
export const accountsMigration: Migration = {
  async up(db: Kysely<never>) {
    await makeIdentityTables(db);

    await db.schema
      .createTable('organisation')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('salt', 'text', (column) => column.notNull())
      .addColumn('invented', 'integer', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .execute();

    await db.schema
      .createTable('membership')
      .addColumn('person', 'text', (column) =>
        column.primaryKey().notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('role', 'text', (column) => column.notNull().check(ROLES))
      .addColumn('salt', 'text', (column) => column.notNull())
      .addColumn('joinedAt', 'text', (column) => column.notNull())
      .execute();
    await db.schema.createIndex('membership_org').on('membership').column('org').execute();

    await db.schema
      .createTable('invitation')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('tokenHash', 'text', (column) => column.notNull().unique())
      .addColumn('org', 'text', (column) => column.notNull().references('organisation.id'))
      .addColumn('role', 'text', (column) => column.notNull().check(ROLES))
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('invitedBy', 'text', (column) => column.notNull())
      .addColumn('madeAt', 'text', (column) => column.notNull())
      .addColumn('expiresAt', 'text', (column) => column.notNull())
      .addColumn('usedAt', 'text')
      .addColumn('usedBy', 'text')
      .execute();
    await db.schema.createIndex('invitation_org').on('invitation').column('org').execute();

    await db.schema
      .createTable('sign_in_ticket')
      .addColumn('ticketHash', 'text', (column) => column.primaryKey().notNull())
      .addColumn('person', 'text', (column) =>
        column.notNull().references('user.id').onDelete('cascade'),
      )
      .addColumn('statementHash', 'text', (column) => column.notNull())
      .addColumn('expiresAt', 'text', (column) => column.notNull())
      .addColumn('usedAt', 'text')
      .execute();

    await db.schema
      .createTable('sign_in_try')
      .addColumn('key', 'text', (column) => column.primaryKey().notNull())
      .addColumn('failures', 'integer', (column) => column.notNull())
      .addColumn('lastAt', 'text', (column) => column.notNull())
      .addColumn('blockedUntil', 'text', (column) => column.notNull())
      .execute();
  },
};

async function makeIdentityTables(db: Kysely<never>): Promise<void> {
  await db.schema
    .createTable('user')
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('name', 'text', (column) => column.notNull())
    .addColumn('email', 'text', (column) => column.notNull().unique())
    .addColumn('emailVerified', 'integer', (column) => column.notNull())
    .addColumn('image', 'text')
    .addColumn('createdAt', 'date', (column) => column.notNull())
    .addColumn('updatedAt', 'date', (column) => column.notNull())
    .execute();

  await db.schema
    .createTable('session')
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('expiresAt', 'date', (column) => column.notNull())
    .addColumn('token', 'text', (column) => column.notNull().unique())
    .addColumn('createdAt', 'date', (column) => column.notNull())
    .addColumn('updatedAt', 'date', (column) => column.notNull())
    .addColumn('ipAddress', 'text')
    .addColumn('userAgent', 'text')
    .addColumn('userId', 'text', (column) =>
      column.notNull().references('user.id').onDelete('cascade'),
    )
    .execute();
  await db.schema.createIndex('session_userId_idx').on('session').column('userId').execute();

  await db.schema
    .createTable('account')
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('accountId', 'text', (column) => column.notNull())
    .addColumn('providerId', 'text', (column) => column.notNull())
    .addColumn('userId', 'text', (column) =>
      column.notNull().references('user.id').onDelete('cascade'),
    )
    .addColumn('accessToken', 'text')
    .addColumn('refreshToken', 'text')
    .addColumn('idToken', 'text')
    .addColumn('accessTokenExpiresAt', 'date')
    .addColumn('refreshTokenExpiresAt', 'date')
    .addColumn('scope', 'text')
    .addColumn('password', 'text')
    .addColumn('createdAt', 'date', (column) => column.notNull())
    .addColumn('updatedAt', 'date', (column) => column.notNull())
    .execute();
  await db.schema.createIndex('account_userId_idx').on('account').column('userId').execute();

  await db.schema
    .createTable('verification')
    .addColumn('id', 'text', (column) => column.primaryKey().notNull())
    .addColumn('identifier', 'text', (column) => column.notNull())
    .addColumn('value', 'text', (column) => column.notNull())
    .addColumn('expiresAt', 'date', (column) => column.notNull())
    .addColumn('createdAt', 'date', (column) => column.notNull())
    .addColumn('updatedAt', 'date', (column) => column.notNull())
    .execute();
  await db.schema
    .createIndex('verification_identifier_idx')
    .on('verification')
    .column('identifier')
    .execute();
}
