import { createServer } from 'node:net';

/** A port of this machine that nobody listens on now. */
export async function freePort(): Promise<number> {
  return new Promise((done, fail) => {
    const probe = createServer();
    probe.on('error', fail);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => done(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}
