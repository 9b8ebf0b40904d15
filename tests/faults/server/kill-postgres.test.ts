import { describe } from 'vitest';
import { hasPostgres } from '../../helpers/postgres.ts';
import { openPostgresEngine } from './engine.ts';
import { expectNothingLost } from './expect-nothing-lost.ts';

// in a file of its own, so that both engines are tried at once
describe.skipIf(!hasPostgres())('a site on PostgreSQL, killed while it writes', () =>
  expectNothingLost(openPostgresEngine),
);
