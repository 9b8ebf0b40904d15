import { connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LARGE_REPLY, makeTempServer, send, type TempServer } from './temp-server.ts';

const SLOW = 200;
const PATIENCE = { headMs: 400, requestMs: 700, silenceMs: 900, checkMs: 50 };

let temp: TempServer;
beforeAll(async () => {
  temp = await makeTempServer({}, PATIENCE);
});
afterAll(() => temp.remove());

type Client = { readonly socket: Socket; readonly ended: Promise<string> };

function openClient(): Promise<Client> {
  const socket = connect(temp.port, '127.0.0.1');
  let heard = '';
  socket.on('data', (chunk) => {
    heard += String(chunk).slice(0, 200);
  });
  socket.on('error', () => undefined);
  const ended = new Promise<string>((resolve) => socket.once('close', () => resolve(heard)));
  return new Promise((resolve) => socket.once('connect', () => resolve({ socket, ended })));
}

/** Sends a byte now and then, as if it had all day. */
function trickle({ socket, ended }: Client, text: string): void {
  let at = 0;
  const timer = setInterval(() => void socket.write(text[at++ % text.length] ?? 'x'), 60);
  void ended.then(() => clearInterval(timer));
}

/** ms a quick request takes meanwhile */
async function askQuickly(): Promise<number> {
  const began = performance.now();
  const { status } = await send(temp.port, '/page');
  expect(status).toBe(200);
  return performance.now() - began;
}

async function expectEnded(clients: readonly Client[], answer: RegExp): Promise<void> {
  const took: number[] = [];
  for (let one = 0; one < 5; one++) took.push(await askQuickly());
  expect(Math.max(...took)).toBeLessThan(1_000);
  const heard = await Promise.all(clients.map(({ ended }) => ended));
  for (const text of heard) expect(text).toMatch(answer);
}

const openMany = (count = SLOW) => Promise.all(Array.from({ length: count }, openClient));

describe('slow clients, two hundred at once', () => {
  it('that never finish the head of a request are answered and ended, and others are served', async () => {
    const clients = await openMany();
    for (const client of clients) {
      client.socket.write('GET /page HTTP/1.1\r\nhost: localhost\r\nx-slow: ');
      trickle(client, 'a');
    }
    await expectEnded(clients, /^HTTP\/1\.1 4/);
  });

  it('that never finish a body are answered and ended, and others are served', async () => {
    const clients = await openMany();
    for (const client of clients) {
      client.socket.write(
        `POST /api/echo HTTP/1.1\r\nhost: localhost:${temp.port}\r\norigin: http://localhost:${temp.port}\r\ncontent-length: 5000\r\n\r\n`,
      );
      trickle(client, 'b');
    }
    await expectEnded(clients, /^(HTTP\/1\.1 4|$)/);
  });

  it('that say nothing at all are ended, and others are served', async () => {
    await expectEnded(await openMany(), /^(HTTP\/1\.1 4|$)/);
  });

  it('that never take their reply in are ended before they have it, and others are served', async () => {
    const clients = await openMany(20);
    const taken = clients.map(({ socket }) => {
      socket.pause();
      socket.write(`GET /large HTTP/1.1\r\nhost: localhost:${temp.port}\r\n\r\n`);
      const count = { bytes: 0 };
      socket.on('data', (chunk) => {
        count.bytes += chunk.length;
      });
      socket.pause();
      return count;
    });
    // Node looks a second time before it ends a connection that has more to send
    await new Promise((wake) => setTimeout(wake, 2 * PATIENCE.silenceMs + 300));
    // a paused socket hears of its end once it reads again
    for (const { socket } of clients) socket.resume();
    await expectEnded(clients, /^HTTP\/1\.1 200/);
    for (const { bytes } of taken) expect(bytes).toBeLessThan(LARGE_REPLY.length);
  }, 20_000);
});
