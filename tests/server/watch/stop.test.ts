import { readdirSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { afterEach, describe, expect, it } from 'vitest';
import { type LoggedSite, startLogged } from './running-site.ts';

let site: LoggedSite;
afterEach(() => site?.remove());

/** A sign-in whose second half is sent later: a request that takes as long as we like. */
async function beginSlowly(): Promise<{ finish: () => Promise<string>; socket: Socket }> {
  const body = 'email=mira.holt%40alderlane.example&password=not+the+one';
  const socket = connect(site.port, '127.0.0.1');
  let received = '';
  socket.on('data', (some) => {
    received += String(some);
  });
  socket.on('error', () => undefined);
  const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()));
  await new Promise<void>((resolve) => socket.once('connect', resolve));
  const head = [
    'POST /sign-in HTTP/1.1',
    `host: 127.0.0.1:${site.port}`,
    `origin: ${site.url}`,
    'content-type: application/x-www-form-urlencoded',
    `content-length: ${body.length}`,
  ];
  socket.write(`${head.join('\r\n')}\r\n\r\n${body.slice(0, 10)}`);
  // long enough for the server to have the head
  await new Promise((resolve) => setTimeout(resolve, 150));
  const finish = async () => {
    socket.write(body.slice(10));
    await closed;
    return received;
  };
  return { finish, socket };
}

const canConnect = () =>
  new Promise<boolean>((resolve) => {
    const probe = connect(site.port, '127.0.0.1');
    probe.once('connect', () => {
      probe.destroy();
      resolve(true);
    });
    probe.once('error', () => resolve(false));
  });

async function untilStopping(): Promise<void> {
  while (!site.lines.some(({ event }) => event === 'stop')) {
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

describe('a site that is told to stop', { timeout: 120_000 }, () => {
  it('answers what is running, takes nothing new, and leaves its store in one file', async () => {
    site = await startLogged('empty');
    const slow = await beginSlowly();
    site.signal('SIGTERM');
    await untilStopping();
    expect(await canConnect()).toBe(false);
    const reply = await slow.finish();
    expect(reply).toMatch(/^HTTP\/1\.1 401 /);
    expect(reply).toContain('</html>');
    expect(await site.ended).toBe(0);
    expect(readdirSync(site.data).sort()).toEqual(['site-key.json', 'store.sqlite']);
    const last = site.lines.slice(-3);
    expect(last.map(({ event }) => event)).toEqual(['stop', 'security', 'request']);
  });

  it('waits no longer than it was told to', async () => {
    site = await startLogged('empty', { STOP_GRACE_S: '1' });
    await beginSlowly();
    const began = performance.now();
    site.signal('SIGINT');
    expect(await site.ended).toBe(0);
    expect(performance.now() - began).toBeGreaterThan(900);
    expect(performance.now() - began).toBeLessThan(5_000);
  });

  it('ends at once at the second signal', async () => {
    site = await startLogged('empty', { STOP_GRACE_S: '60' });
    await beginSlowly();
    site.signal('SIGTERM');
    await untilStopping();
    site.signal('SIGTERM');
    expect(await site.ended).toBe(1);
  });
});
