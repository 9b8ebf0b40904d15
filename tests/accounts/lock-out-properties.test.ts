import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { signIn } from '../../src/accounts/index.ts';
import { delayAfter, forgetTries, takeTry } from '../../src/accounts/sign-in-tries.ts';
import { makeTempSite, PASSWORD, refused, requestWith, setUp } from './temp-site.ts';

let temp: Awaited<ReturnType<typeof makeTempSite>>;
beforeAll(async () => {
  temp = await makeTempSite();
  await setUp(temp.site);
});
afterAll(() => temp.remove());

const START = Date.parse('2026-03-03T09:30:00.000Z');

describe('the lock-out', () => {
  it('never makes anybody wait longer than a quarter of an hour, after whatever was tried', () => {
    fc.assert(
      fc.property(fc.nat(100_000), fc.constantFrom('email', 'address'), (failures, by) => {
        const wait = delayAfter(failures, by as 'email' | 'address');
        expect(wait).toBeLessThanOrEqual(900);
        expect(wait).toBeLessThanOrEqual(delayAfter(failures + 1, by as 'email' | 'address'));
      }),
    );
  });

  it('is never for good: after the wait it names, a right password gets in and is counted afresh', async () => {
    const { db } = temp.site.store;
    let run = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.nat(2_000), { minLength: 1, maxLength: 30 }),
        fc.boolean(),
        async (pauses, known) => {
          run += 1;
          const keys = { email: `try-${run}@x.example`, address: known ? `192.0.2.${run}` : null };
          let now = START;
          for (const pause of pauses) {
            now += pause * 1000;
            const wait = await takeTry(db, keys, new Date(now));
            expect(wait).toBeLessThanOrEqual(900);
          }
          let wait = await takeTry(db, keys, new Date(now));
          for (let asked = 0; wait > 0 && asked < 3; asked++) {
            now += wait * 1000;
            wait = await takeTry(db, keys, new Date(now));
          }
          expect(wait).toBe(0);
          await forgetTries(db, keys);
          for (let free = 0; free < 4; free++) {
            expect(await takeTry(db, keys, new Date(now))).toBe(0);
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('who is here', () => {
  it('is told neither by words, status nor time: unknown and known e-mails cost the same', async () => {
    const times: Record<'known' | 'unknown', number[]> = { known: [], unknown: [] };
    const answers = new Set<string>();
    // taken in turn, so that whatever else the machine does meets both alike; apart, so that none has to wait
    for (let i = 0; i < 9; i++) {
      for (const who of ['known', 'unknown'] as const) {
        const email = who === 'known' ? 'first@x.example' : `nobody-${i}@x.example`;
        const now = new Date(START + i * 2 * 24 * 3_600_000);
        const begun = performance.now();
        const reply = await signIn(
          requestWith(),
          { email, password: `${PASSWORD} not` },
          null,
          temp.site,
          now,
        );
        times[who].push(performance.now() - begun);
        answers.add(JSON.stringify(refused(reply)));
      }
    }
    expect(answers.size).toBe(1);
    const median = (list: number[]) => list.sort((a, b) => a - b)[list.length >> 1] ?? 0;
    const known = median(times.known);
    const unknown = median(times.unknown);
    console.log(`wrong password: known ${known.toFixed(1)} ms, unknown ${unknown.toFixed(1)} ms`);
    // one hash is tens of ms: leaving it out for one of the two would be seen at once
    expect(Math.abs(known - unknown)).toBeLessThan(0.3 * Math.max(known, unknown));
  }, 60_000);
});
