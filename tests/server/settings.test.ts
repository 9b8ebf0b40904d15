import { describe, expect, it } from 'vitest';
import { readSettings } from '../../src/server/index.ts';

describe('the settings', () => {
  it('have defaults for everything, and an empty variable counts as not set', () => {
    const requestLimits = { perPerson: 600, perAddress: 6_000 };
    const place = { port: 4400, host: '127.0.0.1', dataDir: 'data', siteUrl: null };
    const expected = { ...place, requestLimits };
    expect(readSettings({})).toEqual({ ok: true, settings: expected });
    const empty = { PORT: '', HOST: '', DATA_DIR: '', SITE_URL: '' };
    expect(readSettings(empty)).toEqual({ ok: true, settings: expected });
  });

  it('are taken from the environment', () => {
    const given = {
      PORT: '0',
      HOST: '0.0.0.0',
      DATA_DIR: '/srv/saw',
      SITE_URL: 'https://saw.example',
      PERSON_REQUESTS_A_MINUTE: '0',
      ADDRESS_REQUESTS_A_MINUTE: '1000000',
    };
    expect(readSettings(given)).toEqual({
      ok: true,
      settings: {
        port: 0,
        host: '0.0.0.0',
        dataDir: '/srv/saw',
        siteUrl: new URL('https://saw.example'),
        requestLimits: { perPerson: 0, perAddress: 1_000_000 },
      },
    });
  });

  it.each([
    ['PORT', '65536'],
    ['PORT', '-1'],
    ['PORT', '80a'],
    ['PORT', '1e3'],
    ['PERSON_REQUESTS_A_MINUTE', '-1'],
    ['PERSON_REQUESTS_A_MINUTE', '1000001'],
    ['ADDRESS_REQUESTS_A_MINUTE', 'many'],
    ['SITE_URL', 'saw.example'],
    ['SITE_URL', 'ftp://saw.example'],
    ['SITE_URL', 'https://saw.example/path'],
  ])('%s=%s is refused with the variable and its range', (name, value) => {
    const read = readSettings({ [name]: value });
    expect(read).toEqual({
      ok: false,
      message: expect.stringMatching(new RegExp(`^${name} must be .*\\.$`)),
    });
  });
});

describe('a database on another machine', () => {
  const why = (DATABASE_URL: string) => {
    const read = readSettings({ DATABASE_URL });
    return read.ok ? null : read.message;
  };

  it.each([
    'postgres://saw:x@localhost:5432/saw',
    'postgres://saw:x@127.0.0.1/saw',
    'postgres://saw:x@[::1]:5432/saw',
    'postgres://saw:x@localhost/saw?host=/run/postgresql',
    'postgres://saw:x@db.saw.example/saw?sslmode=verify-full',
    'postgres://saw:x@10.0.0.7/saw?sslmode=disable',
  ])('is reached by %s, which stays here or says how', (url) => {
    expect(why(url)).toBeNull();
  });

  it.each([
    'postgres://saw:x@db.saw.example:5432/saw',
    'postgres://saw:x@10.0.0.7/saw',
    'postgres://saw:x@127.0.0.1.example/saw',
    'postgres://saw:x@localhost/saw?host=10.0.0.7',
    'postgres://saw:x@localhost/saw?hostaddr=10.0.0.7',
    'postgres://saw:x@db.saw.example/saw?sslmode=no-verify',
    'postgres://saw:x@db.saw.example/saw?sslmode=prefer',
  ])('is not reached by %s: it would go in clear, or to nobody knows whom', (url) => {
    expect(why(url)).toMatch(/^DATABASE_URL leads to another machine; .*sslmode=verify-full.*\.$/);
    expect(why(url)).not.toContain('saw:x');
  });
});
