import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { signIn } from '../../src/accounts/index.ts';
import { delayAfter, forgetTries, takeTry } from '../../src/accounts/sign-in-tries.ts';
import { forgetHashes } from '../helpers/hash-once.ts';
import { granted, makeTempSite, PASSWORD, refused, requestWith, setUp } from './temp-site.ts';

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
  it('is told neither by words, status nor time, and nor is a right password by its time', async () => {
    const KINDS = ['known', 'unknown', 'right'] as const;
    const times: Record<(typeof KINDS)[number], number[]> = { known: [], unknown: [], right: [] };
    const answers = new Set<string>();
    // time of the processor in this process, which other work on the machine does not lengthen; in turn, each first as often as the others, so that whatever else the machine does meets all alike; apart, so
    // that none has to wait
    for (let i = 0; i < 9; i++) {
      const turn = i % KINDS.length;
      for (const who of [...KINDS.slice(turn), ...KINDS.slice(0, turn)]) {
        const email = who === 'unknown' ? `nobody-${i}@x.example` : 'first@x.example';
        const password = who === 'right' ? PASSWORD : `${PASSWORD} not`;
        const now = new Date(START + i * 2 * 24 * 3_600_000);
        forgetHashes();
        const begun = process.cpuUsage();
        const reply = await signIn(requestWith(), { email, password }, null, temp.site, now);
        const { user, system } = process.cpuUsage(begun);
        times[who].push((user + system) / 1_000);
        if (who === 'right') granted(reply);
        else answers.add(JSON.stringify(refused(reply)));
      }
    }
    expect(answers.size).toBe(1);
    const median = (list: number[]) => list.sort((a, b) => a - b)[list.length >> 1] ?? 0;
    const [known, unknown, right] = KINDS.map((who) => median(times[who])) as [
      number,
      number,
      number,
    ];
    const all = [known, unknown, right].map((one) => one.toFixed(1)).join(', ');
    console.log(`ms of work at a sign-in, wrong password, unknown e-mail, right password: ${all}`);
    // one hash is tens of ms and nearly all of it: leaving it out for one would be half and more
    const most = Math.max(known, unknown, right);
    expect(Math.abs(known - unknown)).toBeLessThan(0.15 * most);
    // a right one opens a session as well, a few rows
    expect(Math.abs(right - known)).toBeLessThan(0.2 * most);
  }, 120_000);
});
