import { type Engine, openSqliteEngine } from './engine.ts';

/** The engines the faults are tried on, each with a way to open a fresh one. */
export const ENGINES: [string, () => Promise<Engine>][] = [['SQLite', openSqliteEngine]];
