import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CountedBy,
  costOf,
  makeRequestLimit,
  takeRequest,
  useRequestLimit,
} from '../../src/accounts/index.ts';
import { networkOf } from '../../src/accounts/limit/network-of.ts';
import { makeTokenBuckets } from '../../src/accounts/limit/token-buckets.ts';
import { readSettings } from '../../src/server/index.ts';

describe('a bucket of tokens', () => {
  it('gives a minute’s worth at once, then as much as comes back, and says how long that takes', () => {
    const buckets = makeTokenBuckets(60);
    for (let i = 0; i < 60; i++) expect(buckets.take('mira', 1, 0)).toBe(0);
    // one a second: whoever needs four waits four, and less by what has come back
    expect(buckets.take('mira', 1, 0)).toBe(1);
    expect(buckets.take('mira', 4, 0)).toBe(4);
    expect(buckets.take('mira', 4, 1_500)).toBe(3);
    expect(buckets.take('mira', 4, 4_000)).toBe(0);
    expect(buckets.take('mira', 1, 4_000)).toBe(1);
    expect(buckets.take('tom', 1, 4_000)).toBe(0);
    // and it never holds more than that
    expect([60, 1].map((cost) => buckets.take('tom', cost, 60_000))).toEqual([0, 1]);
  });

  it('gives what costs more than it holds to whoever has waited a minute', () => {
    const buckets = makeTokenBuckets(10);
    expect(buckets.take('anna', 40, 0)).toBe(0);
    expect(buckets.take('anna', 40, 30_000)).toBe(30);
    expect(buckets.take('anna', 40, 60_000)).toBe(0);
  });

  it('never gives more than it held and what came back, and never less to whoever keeps below that', () => {
    const asked = fc.record({ after: fc.nat(20_000), cost: fc.integer({ min: 1, max: 9 }) });
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 300 }), fc.array(asked), (perMinute, all) => {
        const buckets = makeTokenBuckets(perMinute);
        let [now, given] = [0, 0];
        for (const { after, cost } of all) {
          now += after;
          const wait = buckets.take('one', cost, now);
          if (wait === 0) given += cost;
          // a token bucket lets through at most its size and its rate times the time (RFC 2697, section 3)
          expect(given).toBeLessThanOrEqual(perMinute + (perMinute * now) / 60_000 + 1e-6);
          expect(wait).toBeLessThanOrEqual(60);
          if (wait > 0) {
            now += wait * 1_000;
            expect(buckets.take('one', cost, now)).toBe(0);
            given += cost;
          }
        }
      }),
    );
  });

  it('is forgotten once it is full again, and the oldest where there are too many', () => {
    const buckets = makeTokenBuckets(60, 100);
    for (let i = 0; i < 1_000; i++) buckets.take(`asker ${i}`, 60, i);
    expect(buckets.size()).toBe(100);
    expect(buckets.take('asker 999', 1, 1_000)).toBe(1);
    expect(buckets.take('asker 0', 1, 1_000)).toBe(0);
    buckets.take('later', 1, 62_000);
    expect(buckets.size()).toBe(1);
  });
});

describe('what is counted as one address', () => {
  // RFC 4291: 2.2 for the spellings, 2.5.4 for the 64 bits of a network, 2.5.5.2 for IPv4 inside
  it.each([
    ['192.0.2.7', '192.0.2.7'],
    ['::ffff:192.0.2.7', '192.0.2.7'],
    ['2001:db8:0:7::1', '2001:db8:0:7::/64'],
    ['2001:0DB8::7:abcd:1:2:3', '2001:db8:0:7::/64'],
    ['2001:db8:0:8::1', '2001:db8:0:8::/64'],
    ['::1', '0:0:0:0::/64'],
    ['fe80::1%eth0', 'fe80:0:0:0::/64'],
    ['unknown', 'unknown'],
  ])('%s is %s', (address, network) => {
    expect(networkOf(address)).toBe(network);
  });
});

describe('the limit', () => {
  const limits = { perPerson: 10, perAddress: 20 };
  const at = (person: string | null, address = '192.0.2.1') => ({ person, address });

  it('counts each person by themselves wherever they come from, and whoever is nobody by address', () => {
    const refused: CountedBy[] = [];
    const take = makeRequestLimit(limits, (by) => refused.push(by));
    for (let i = 0; i < 10; i++) expect(take(at('mira', `192.0.2.${i}`), 1, 0)).toBe(0);
    expect(take(at('mira', '198.51.100.1'), 1, 0)).toBe(6);
    expect(take(at('tom'), 1, 0)).toBe(0);
    for (let i = 0; i < 20; i++) expect(take(at(null, `2001:db8::${i}`), 1, 0)).toBe(0);
    expect(take(at(null, '2001:db8::ffff'), 1, 0)).toBe(3);
    expect(take(at(null), 1, 0)).toBe(0);
    expect(refused).toEqual(['person', 'address']);
  });

  it('is none where 0 is set, and none for what keeps asking whether the site is well', () => {
    const take = makeRequestLimit({ perPerson: 0, perAddress: 1 });
    for (let i = 0; i < 1_000; i++) expect(take(at('mira'), 40, 0)).toBe(0);
    expect(take(at(null), 1, 0)).toBe(0);
    expect(take(at(null), costOf('/api/health', 'GET'), 0)).toBe(0);
    expect(take(at(null), costOf('/sign-in', 'GET'), 0)).toBe(60);
  });

  it('is the one of the process, whichever copy of the code asks', () => {
    expect(takeRequest(at(null), 1)).toBe(0);
    useRequestLimit(makeRequestLimit({ perPerson: 0, perAddress: 1 }));
    expect([takeRequest(at(null), 1), takeRequest(at(null), 1)]).toEqual([0, 60]);
    useRequestLimit(null);
    expect(takeRequest(at(null), 1)).toBe(0);
  });
});

describe('the limit as it is set when nobody sets it', () => {
  const read = readSettings({});
  const usual = read.ok ? read.settings.requestLimits : undefined;
  const take = makeRequestLimit(usual ?? { perPerson: 1, perAddress: 1 });

  it('lets a class of 200 sign in and work behind one address', () => {
    const address = '192.0.2.1';
    for (let one = 0; one < 200; one++) {
      // each within two minutes: the form twice, as a first password is often wrong, then a page every two seconds
      for (const method of ['GET', 'POST', 'POST']) {
        expect(take({ person: null, address }, costOf('/sign-in', method), 0)).toBe(0);
      }
      for (let page = 0; page < 60; page++) {
        const person = `trainee ${one}`;
        // a page, what its panels ask for, and an answer kept
        expect(take({ person, address }, 4, page * 2_000)).toBe(0);
      }
    }
  });

  it('lets a device send the practicals of a whole day at once, with a photo of everything', () => {
    const asker = { person: 'trainer', address: '192.0.2.1' };
    for (let practical = 0; practical < 12; practical++) {
      expect(take(asker, costOf('/api/practicals', 'POST'), 0)).toBe(0);
      for (let photo = 0; photo < 20; photo++) {
        expect(take(asker, costOf('/api/photos/[digest]', 'PUT'), 0)).toBe(0);
      }
    }
  });

  it('stops a machine that asks for everything again and again', () => {
    const asker = { person: 'machine', address: '192.0.2.1' };
    const copies = Array.from({ length: 100 }, () =>
      take(asker, costOf('/my-data/copy.json', 'GET'), 0),
    );
    expect(copies.filter((wait) => wait === 0)).toHaveLength(30);
    expect(copies.at(-1)).toBe(2);
  });
});
