import type { Problem } from '../bench/index.ts';

/**
 * Errors of the store. Each has a fixed `name`: the site's pages and its server are built apart, so
 * `instanceof` would not recognise an error that crossed from one to the other.
 */

/** Not an event: `problem` names the field and what it may be. HTTP 400. */
export class EventRefused extends Error {
  override readonly name = 'EventRefused';
  readonly problem: Problem;

  constructor(problem: Problem) {
    super(problem.message);
    this.problem = problem;
  }
}

/** The id belongs to another event already. HTTP 422. */
export class IdConflict extends Error {
  override readonly name = 'IdConflict';
  readonly problem: Problem;

  constructor(id: string) {
    super(`id ${id} belongs to another event, so this one was not kept.`);
    this.problem = { path: 'id', message: this.message };
  }
}

/** The log itself no longer fits together at `seq`; nothing more is written to it. HTTP 503. */
export class StoreDamaged extends Error {
  override readonly name = 'StoreDamaged';

  constructor(seq: number) {
    super(`The log is damaged at record ${seq}, so nothing was added to it; restore a backup.`);
  }
}

/** The store or its key cannot be used. The message is one sentence for whoever started the site. */
export class StoreUnusable extends Error {
  override readonly name = 'StoreUnusable';
}

export function isEventRefused(error: unknown): error is EventRefused {
  return error instanceof Error && error.name === 'EventRefused';
}

export function isIdConflict(error: unknown): error is IdConflict {
  return error instanceof Error && error.name === 'IdConflict';
}

export function isStoreUnusable(error: unknown): error is StoreUnusable {
  return error instanceof Error && error.name === 'StoreUnusable';
}

/** PostgreSQL's own codes, https://www.postgresql.org/docs/15/errcodes-appendix.html, and those of the network. */
const AWAY =
  /^(08...|57P0[1-3]|53300|55P03|57014|25P03|ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT|ENOTFOUND|EAI_AGAIN|EHOSTUNREACH)$/;
/** What the library says without a code. */
const AWAY_WORDS =
  /Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error|not queryable/;

/**
 * Whether the database could not be reached, went away or kept us waiting: it may well be back in a moment, and
 * whatever was not acknowledged was not promised. HTTP 503.
 */
export function isStoreAway(error: unknown): boolean {
  if (!(error instanceof Error)) return false;
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  if (AWAY.test(code) || AWAY_WORDS.test(error.message)) return true;
  return error instanceof AggregateError && error.errors.some(isStoreAway);
}
