import { describeError, type ErrorNote } from './describe-error.ts';
import { ofProcess } from './of-process.ts';
import { runningRequest } from './running-request.ts';
import type { Factor, SecurityKind, SecurityRecord } from './security-events.ts';

export const LOG_LEVELS = ['error', 'warn', 'info', 'debug'] as const;
export type LogLevel = (typeof LOG_LEVELS)[number];

export const LOG_EVENTS = [
  'request',
  'security',
  'start',
  'stop',
  'error',
  'migration',
  'backup',
  'sign-ins-refused',
  'not-ready',
  'library',
] as const;
export type LogEvent = (typeof LOG_EVENTS)[number];

/**
 * Everything a line may hold. There is no field for a name, an address, a body, a query or an id of anybody,
 * and none that takes free text: what is not listed cannot be logged.
 */
export type LogFields = {
  /** of the request: its number, method, pattern of its address, status, milliseconds */
  readonly request?: string;
  readonly method?: string;
  readonly route?: string;
  readonly status?: number;
  readonly ms?: number;
  /** the client went away before it had its reply */
  readonly cut?: true;
  /** of what bears on security: what happened, by what somebody signed in, what was entered in the log of records */
  readonly kind?: SecurityKind;
  readonly factor?: Factor;
  readonly record?: SecurityRecord;
  readonly error?: ErrorNote;
  readonly count?: number;
  readonly port?: number;
  readonly version?: string;
  readonly signal?: 'SIGTERM' | 'SIGINT' | 'error';
  readonly migration?: string;
  readonly checks?: Readonly<Record<string, 'ok' | 'failed'>>;
};

export type LogLine = LogFields & {
  readonly time: string;
  readonly level: LogLevel;
  readonly event: LogEvent;
};

type Sink = { level: LogLevel; write: (line: LogLine) => void };

/** Until a log is opened, errors alone are told, on standard error: a command or a test is no site. */
const sink = ofProcess<Sink>('log', () => ({
  level: 'error',
  write: (line) => console.error(JSON.stringify(line)),
}));

/** Where lines go from now on, and from which level up. */
export function openLog(level: LogLevel, write: (line: LogLine) => void): void {
  sink.level = level;
  sink.write = write;
}

export function log(level: LogLevel, event: LogEvent, fields: LogFields = {}): void {
  if (LOG_LEVELS.indexOf(level) > LOG_LEVELS.indexOf(sink.level)) return;
  sink.write({ time: new Date().toISOString(), level, event, ...fields });
}

/** Logs an error, with the request it happened in. */
export function logError(error: unknown): void {
  const running = runningRequest();
  log('error', 'error', {
    ...(running === null
      ? {}
      : { request: running.id, method: running.method, route: running.route ?? '(none)' }),
    error: describeError(error),
  });
}
