import { hasPostgres, NO_POSTGRES } from '../../helpers/postgres.ts';
import { type Engine, openPostgresEngine, openSqliteEngine } from './engine.ts';

/** The engines the faults are tried on, each with a way to open a fresh one. */
export const ENGINES: [string, () => Promise<Engine>][] = [['SQLite', openSqliteEngine]];
if (hasPostgres()) ENGINES.push(['PostgreSQL', openPostgresEngine]);
else console.warn(NO_POSTGRES);
