import type { IncomingMessage } from 'node:http';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { describeStatus } from '../../src/server/plain-reply.ts';
import { makeTempServer, send, type TempServer } from './temp-server.ts';

/** What the server says by itself, in the language of the address or of the panel that asks. */
let temp: TempServer;
beforeAll(async () => {
  temp = await makeTempServer();
});
afterAll(() => temp.remove());

const asking = (url: string, headers: IncomingMessage['headers'] = {}) =>
  ({ url, headers }) as IncomingMessage;

it('says an error in the language of its address', () => {
  const german = describeStatus(asking('/de/page?x=/api/'), 500).body;
  expect(german).toContain('<html lang="de">');
  expect(german).toContain('Bei uns ist etwas schiefgegangen');
  expect(german).toContain('<a href="/de/">Zur ersten Seite</a>');
  expect(describeStatus(asking('/design'), 500).body).toContain('Something went wrong');
});

it('answers a panel in the language it asks for, and one nobody speaks in English', () => {
  const said = (language: string) =>
    JSON.parse(describeStatus(asking('/api/practicals', { 'x-language': language }), 413).body);
  expect(said('de').error.message).toMatch(/^Die Anfrage ist größer als 1 MB/);
  expect(said('xx').error.message).toMatch(/^The request is larger than 1 MB/);
});

it('says what is one request too many, with the seconds to wait, in each language', async () => {
  const reply = async (path: string, headers: Record<string, string> = {}) => {
    const { status, headers: given, body } = await send(temp.port, path, { headers });
    expect([status, given['retry-after'], given['cache-control']]).toEqual([429, '7', 'no-store']);
    return String(body);
  };
  expect(await reply('/limited')).toContain('<p>Too many requests came from you in a short time');
  expect(await reply('/de/limited')).toContain(
    '<p>Von Ihnen kamen in kurzer Zeit zu viele Anfragen',
  );
  const said = JSON.parse(await reply('/api/limited', { 'x-language': 'de' }));
  expect(said.error.message).toMatch(/^Von Ihnen kamen .* warten Sie eine Minute/);
});

it('has a sentence for a status it does not list', () => {
  expect(describeStatus(asking('/'), 418).body).toContain('The request cannot be read.');
  expect(describeStatus(asking('/'), 504).body).toContain('Something went wrong');
});

it('shows the page for nothing in the language of the address', async () => {
  const titleAt = async (path: string) =>
    /<title>(.+)<\/title>/.exec(String((await send(temp.port, path)).body))?.[1];
  expect(await titleAt('/de/nothing')).toBe('Hier ist nichts');
  expect(await titleAt('/nothing')).toBe('Nothing here');
});
