import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeCounter, makeGauge, makeHistogram } from '../../../src/server/metrics/families.ts';
import { writeOpenMetrics } from '../../../src/server/metrics/open-metrics.ts';
import { makeSiteMetrics } from '../../../src/server/metrics/site-metrics.ts';
import { readOpenMetrics } from './read-open-metrics.ts';

describe('the reader of this test', () => {
  it.each([
    ['no end', '# TYPE a gauge\na 1\n'],
    ['an empty line', '# TYPE a gauge\n\na 1\n# EOF\n'],
    ['a counter without _total', '# TYPE a counter\na 1\n# EOF\n'],
    ['a unit that is not in the name', '# TYPE a gauge\n# UNIT a seconds\na 1\n# EOF\n'],
    ['a family in two pieces', '# TYPE a gauge\na 1\n# TYPE b gauge\nb 1\na 2\n# EOF\n'],
    ['a sample twice', '# TYPE a gauge\na 1\na 2\n# EOF\n'],
    [
      'buckets that do not add up',
      '# TYPE a histogram\na_bucket{le="1.0"} 3\na_bucket{le="+Inf"} 2\na_count 2\na_sum 1\n# EOF\n',
    ],
  ])('refuses %s', (_what, text) => {
    expect(() => readOpenMetrics(text)).toThrow();
  });
});

describe('OpenMetrics text', () => {
  it('gives back every label and value, whatever signs are in them', () => {
    const text = fc.string({ unit: 'binary', maxLength: 30 });
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 6 }), text, (values, help) => {
        const once = [...new Set(values)];
        const counter = makeCounter({ name: 'a', help });
        for (const route of once) counter.add({ route });
        const read = readOpenMetrics(writeOpenMetrics([counter.family])).get('a');
        expect(read?.samples.map(({ labels }) => labels['route'])).toEqual(once);
      }),
    );
  });

  it('spreads values over buckets as they lie', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 30 })), (tenths) => {
        const values = tenths.map((one) => one / 10);
        const bounds = [0.5, 1, 2];
        const histogram = makeHistogram({ name: 'a_seconds', unit: 'seconds', help: 'x' }, bounds, [
          {},
        ]);
        for (const value of values) histogram.observe(value);
        const { samples } = readOpenMetrics(writeOpenMetrics([histogram.family])).get(
          'a_seconds',
        ) ?? {
          samples: [],
        };
        const expected = [...bounds, Number.POSITIVE_INFINITY].map(
          (bound) => values.filter((value) => value <= bound).length,
        );
        expect(samples.slice(0, 4).map(({ value }) => value)).toEqual(expected);
      }),
    );
  });

  it('leaves out what is not known', () => {
    const gauge = makeGauge({ name: 'a', help: 'x' }, () => [[{}, null]]);
    expect(readOpenMetrics(writeOpenMetrics([gauge])).get('a')?.samples).toEqual([]);
  });
});

describe('the numbers of a site', () => {
  const numbers = { events: 7, openSittings: 2, connections: { used: 1, idle: 3, waiting: 0 } };

  it('can be read by the standard, and say what happened', async () => {
    const metrics = makeSiteMetrics('1.2.3', async () => numbers);
    const request = (route: string, method: string, status: number) => {
      metrics.startRequest();
      metrics.observeRequest({ route, method, status }, 0.02);
    };
    request('/people/[id]', 'GET', 200);
    request('/people/[id]', 'GET', 204);
    request('/sign-in', 'POST', 401);
    request('/de/sign-in', 'POST', 429);
    request('/sign-in', 'POST', 303);
    request('/x', 'BREW', 405);
    metrics.observeWrite(0.004);
    metrics.countLimited('address');
    const read = readOpenMetrics(await metrics.write());
    metrics.close();
    const value = (family: string, labels: Record<string, string> = {}) =>
      read
        .get(family)
        ?.samples.find((one) =>
          Object.entries(labels).every(([name, is]) => one.labels[name] === is),
        )?.value;
    const people = { route: '/people/[id]', method: 'GET', status: '2xx' };
    expect(value('signed_to_saw_http_requests', people)).toBe(2);
    expect(value('signed_to_saw_http_requests', { method: 'other' })).toBe(1);
    expect(value('signed_to_saw_http_requests_running')).toBe(0);
    expect(value('signed_to_saw_sign_ins_refused')).toBe(2);
    expect(value('signed_to_saw_requests_limited', { by: 'address' })).toBe(1);
    expect(value('signed_to_saw_requests_limited', { by: 'person' })).toBe(0);
    expect(value('signed_to_saw_log_events')).toBe(7);
    expect(value('signed_to_saw_open_sittings')).toBe(2);
    expect(value('signed_to_saw_database_connections', { state: 'idle' })).toBe(3);
    expect(value('signed_to_saw_store_write_duration_seconds', { le: '0.005' })).toBe(1);
    expect(value('process_resident_memory_bytes')).toBeGreaterThan(1e6);
    expect(value('signed_to_saw_build', { version: '1.2.3' })).toBe(1);
    for (const [name, family] of read) expect(family.help, name).toBeTruthy();
  });

  it('say that the store does not answer, and nothing of what it holds', async () => {
    const metrics = makeSiteMetrics('1', async () => {
      throw new Error('gone');
    });
    const read = readOpenMetrics(await metrics.write());
    metrics.close();
    expect(read.get('signed_to_saw_store_up')?.samples[0]?.value).toBe(0);
    expect(read.get('signed_to_saw_log_events')?.samples).toEqual([]);
  });
});
