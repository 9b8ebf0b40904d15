import { globSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, it } from 'vitest';
import { ON_BOTH_ENGINES, ON_ONE_ENGINE } from '../helpers/on-both-engines.ts';

const ROOT = resolve(import.meta.dirname, '../..');
/** What a test opens a site or a store with. */
const OPENS =
  /\b(makeTempSite|makeSaltingSite|makePostgresSite|makeWorkshop|makeWorld|openWorld|openDemoWithLeave|openStage|openPackStage|openSite|openStore|makeTempStore|makeStoreHere)\(/;
/** What a test opens one on PostgreSQL with. */
const OPENS_POSTGRES =
  /\b(SITES|ENGINES|makeTwoRoles|makePostgresSite|makePostgresStore|sharedDatabase|startCluster)\b/;

const files = globSync('tests/**/*.test.ts', { cwd: ROOT });
const read = (file: string) => readFileSync(resolve(ROOT, file), 'utf8');

it('runs every test that opens a site or a store on PostgreSQL as well, or says why not', () => {
  const both = new Set(ON_BOTH_ENGINES);
  const opening = files.filter((file) => OPENS.test(read(file)) && !file.includes('house/engines'));
  expect(opening.length).toBeGreaterThan(50);
  const untold = opening.filter(
    (file) => !both.has(file) && !(file in ON_ONE_ENGINE) && !OPENS_POSTGRES.test(read(file)),
  );
  expect(untold).toEqual([]);
});

it('names no file that is gone, opens nothing or stands in both lists', () => {
  const named = [...ON_BOTH_ENGINES, ...Object.keys(ON_ONE_ENGINE)];
  expect(named.filter((file) => !files.includes(file))).toEqual([]);
  expect(named.filter((file) => !OPENS.test(read(file)))).toEqual([]);
  expect(new Set(named).size).toBe(named.length);
});
