import { randomBytes } from 'node:crypto';
import { Client } from 'pg';
import type { TestProject } from 'vitest/node';
import { COPIES } from '../store/prepared.ts';
import { runSql, startCluster } from './postgres.ts';

/**
 * Before and after the run of a project: for the one on PostgreSQL a cluster for all its processes where none is
 * given. A given one keeps the template, which the next run copies as well, and loses the copies, unless it ends
 * with the run.
 */
export async function setup({ name }: TestProject): Promise<() => Promise<void>> {
  process.env[COPIES] ??= `copy_${randomBytes(4).toString('hex')}`;
  const prefix = process.env[COPIES];
  const given = process.env['TEST_DATABASE_URL'];
  if (given !== undefined) {
    const ends = process.env['TEST_CLUSTER_ENDS'] !== undefined;
    return async () => (ends ? undefined : dropCopies(given, prefix));
  }
  if (name !== 'postgresql') return async () => undefined;
  const cluster = await startCluster();
  process.env['TEST_DATABASE_URL'] = cluster.url;
  process.env['TEST_CLUSTER_ENDS'] = 'yes';
  return async () => cluster.stop();
}

async function dropCopies(url: string, prefix: string): Promise<void> {
  const client = new Client({ connectionString: url });
  await client.connect();
  const { rows } = await client.query<{ datname: string }>(
    'select datname from pg_database where starts_with(datname, $1)',
    [prefix],
  );
  await client.end();
  for (const { datname } of rows) {
    await runSql(url, `drop database if exists "${datname}" with (force)`);
  }
}
