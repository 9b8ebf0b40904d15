import crypto from 'node:crypto';
import { syncBuiltinESMExports } from 'node:module';

/*
 * Before each file of the first run: scrypt at its full cost, but the same question twice in one process is answered
 * from what was worked out the first time. What it costs is measured where `forgetHashes` is called before each.
 */
const SLOT = Symbol.for('signed-to-saw.test-hashes');
const holder = globalThis as { [SLOT]?: Map<string, Promise<Buffer>> };

function remember(): Map<string, Promise<Buffer>> {
  const known = new Map<string, Promise<Buffer>>();
  const { scrypt } = crypto;
  crypto.scrypt = ((password, salt, length, options, done) => {
    const [pass, salted] = [password, salt].map((one) =>
      Buffer.from(one as Buffer).toString('hex'),
    );
    const key = JSON.stringify([pass, salted, length, options]);
    const made =
      known.get(key) ??
      new Promise<Buffer>((take, fail) => {
        scrypt(password, salt, length, options, (error, bytes) =>
          error === null ? take(bytes) : fail(error),
        );
      });
    known.set(key, made);
    made.then(
      (bytes) => done(null, Buffer.from(bytes)),
      (error: Error) => done(error, Buffer.alloc(0)),
    );
  }) as typeof scrypt;
  syncBuiltinESMExports();
  return known;
}

holder[SLOT] ??= remember();

/** From here on every hash is worked out again. */
export function forgetHashes(): void {
  holder[SLOT]?.clear();
}
