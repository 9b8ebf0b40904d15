import type { Role } from '../viewer.ts';

/** A working day, seconds. Fixed, not sliding: a tablet left in the workshop signs itself out. */
export const SESSION_LENGTH_S = 12 * 60 * 60;

/**
 * Longest time without a request, seconds. Shorter for those who sign and give leave. A trainee reads and works at
 * a bench for long without one. The sheet at the machine needs no session, and says that it is in use.
 */
export const IDLE_S: Readonly<Record<Role, number>> = {
  trainee: 2 * 60 * 60,
  trainer: 45 * 60,
  employer: 45 * 60,
};

/** How long after proving who they are a person may change how they sign in, seconds. */
export const FRESH_S = 5 * 60;

/** A right password waits so long for its second step, seconds. */
export const STEP_S = 5 * 60;
