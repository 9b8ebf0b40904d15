import { describe, expect, it } from 'vitest';
import { fuzzSite } from './http.ts';

/** The full count, fifty thousand, is sent by `npm run fuzz -- http`; this keeps it honest at every commit. */
describe('spoilt requests', () => {
  it('over every route and role: no 500, nothing of the inside, nothing slow, a log that holds (seed "some hundred")', async () => {
    const found = await fuzzSite('some hundred', 300, 40);
    console.log(JSON.stringify({ ...found, findings: found.findings.length }));
    expect(found.findings).toEqual([]);
    // most must get past the door, or nothing behind it is tried
    expect(found.requests).toBeGreaterThan(200);
    expect(found.byStatus['200'] ?? 0).toBeGreaterThan(30);
    expect(found.stillSignedIn).toBeGreaterThan(4);
  }, 120_000);
});
