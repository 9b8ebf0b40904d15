import crypto from 'node:crypto';
import { syncBuiltinESMExports } from 'node:module';
import { beforeAll } from 'vitest';
import { askByDefault } from './asked-by-default.ts';

/** Before each file of the second run, on PostgreSQL. */

// what a password costs to hash is measured on SQLite; here it would be half of the time
const { scrypt } = crypto;
crypto.scrypt = ((password, salt, length, options, done) =>
  scrypt(password, salt, length, { ...options, N: 2 }, done)) as typeof scrypt;
syncBuiltinESMExports();

beforeAll(() => askByDefault('site'));
