import { type BetterAuthOptions, betterAuth } from 'better-auth';
import type { Kysely } from 'kysely';
import { uuidv7 } from 'uuidv7';
import type { Tables } from '../store/index.ts';
import { LONGEST_PASSWORD, SHORTEST_PASSWORD } from './field-rules.ts';
import { hashPassword, verifyPassword } from './passwords/password-hash.ts';

export type AuthSettings = {
  readonly db: Kysely<Tables>;
  /** At least 32 characters; the library asks for one, for cookies of its own that we never set. */
  readonly secret: string;
  /** Where people reach the site, such as https://saw.example. Decides whether cookies are Secure. */
  readonly address: URL;
};

/**
 * better-auth keeps the people and the hashes of passwords, which we make (`passwords/password-hash`). Its own HTTP routes are not mounted: sign-up, roles
 * and membership go through this folder only, so there is no field for a stranger to fill in. Sessions are ours
 * (`sessions`): the library would keep their tokens in clear, and knows no limit on idle time.
 */
export function authOptions({ db, secret, address }: AuthSettings) {
  return {
    secret,
    baseURL: address.origin,
    database: { db, type: 'sqlite' },
    emailAndPassword: {
      enabled: true,
      disableSignUp: true,
      minPasswordLength: SHORTEST_PASSWORD,
      maxPasswordLength: LONGEST_PASSWORD,
      password: { hash: hashPassword, verify: verifyPassword },
    },
    advanced: {
      cookiePrefix: 'signed-to-saw',
      useSecureCookies: address.protocol === 'https:',
      database: { generateId: () => uuidv7() },
      ipAddress: { disableIpTracking: true },
    },
    telemetry: { enabled: false },
    // A wrong password is an ordinary answer here, and a log must not fill up with them.
    logger: { level: 'error' },
  } satisfies BetterAuthOptions;
}

export function makeAuth(settings: AuthSettings) {
  return betterAuth(authOptions(settings));
}

export type Auth = ReturnType<typeof makeAuth>;
