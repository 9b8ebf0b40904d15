import { logSecurity } from '../../logging/index.ts';
import { type Refused, refused, refusedFor } from './refused.ts';

/** Refuses a record whose key the site does not know, or that was ended. */
export function refuseKey(): Refused {
  logSecurity('key-refused');
  return refusedFor(422, 'keyId', 'desk.key.unknown');
}

/** Refuses a record whose signature is not that of its key. */
export function refuseSignature(sentence: string): Refused {
  logSecurity('key-refused');
  return refused(422, 'deviceSignature', sentence);
}
