import { describe } from 'vitest';
import { openSqliteEngine } from './engine.ts';
import { expectNothingLost } from './expect-nothing-lost.ts';

describe('a site on SQLite, killed while it writes', () => expectNothingLost(openSqliteEngine));
