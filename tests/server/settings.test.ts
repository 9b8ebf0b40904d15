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
