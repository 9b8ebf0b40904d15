import { expect, it } from 'vitest';
import { readWatchSettings } from '../../../src/server/index.ts';

const read = (environment: Record<string, string>, terminal = false) =>
  readWatchSettings(environment, { terminal });

it('write words for a person at a terminal and JSON for a program, unless told otherwise', () => {
  const format = (environment: Record<string, string>, terminal: boolean) => {
    const done = read(environment, terminal);
    return done.ok && done.settings.logFormat;
  };
  expect(format({}, true)).toBe('text');
  expect(format({}, false)).toBe('json');
  expect(format({ LOG_FORMAT: 'json' }, true)).toBe('json');
  expect(format({ LOG_FORMAT: 'text' }, false)).toBe('text');
});

it('give nobody the metrics unless asked to, and wait 10 s for running requests', () => {
  expect(read({ METRICS_TOKEN: '' })).toEqual({
    ok: true,
    settings: {
      logLevel: 'info',
      logFormat: 'json',
      metricsToken: null,
      metricsPort: null,
      stopGraceMs: 10_000,
      diskFloor: 200_000_000,
    },
  });
});

it.each([
  ['LOG_LEVEL', 'loud'],
  ['LOG_FORMAT', 'xml'],
  ['METRICS_PORT', '0'],
  ['METRICS_PORT', '65536'],
  ['STOP_GRACE_S', '601'],
  ['STOP_GRACE_S', '-1'],
  ['DISK_FLOOR_MB', '1e3'],
  ['METRICS_TOKEN', 'secret'],
  // 31 hexadecimal digits are 124 bits
  ['METRICS_TOKEN', '0123456789abcdef0123456789abcde'],
  ['METRICS_TOKEN', 'a'.repeat(40)],
  ['METRICS_TOKEN', 'not of the alphabet at all!'],
])('%s=%s is refused with the variable and its range, and never with its value', (name, value) => {
  const done = read({ [name]: value });
  expect(done).toEqual({
    ok: false,
    message: expect.stringMatching(new RegExp(`^${name} must be .*\\.$`)),
  });
  if (name === 'METRICS_TOKEN') expect(JSON.stringify(done)).not.toContain(value);
});

it('take a token of 128 bits, in hexadecimal or base 64 for addresses', () => {
  for (const token of ['0123456789abcdef0123456789abcdef', 'Zk3-_qP9xR2mT7wL5vB8yA']) {
    expect(read({ METRICS_TOKEN: token }).ok).toBe(true);
  }
});
