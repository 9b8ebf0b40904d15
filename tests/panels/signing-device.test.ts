import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFresh, waitAfterWrong } from '../../src/panels/signing/ready/verifier.ts';
import { judgeRefusal, waitAfter } from '../../src/panels/signing/send/judge-reply.ts';
import { asUnsent } from '../../src/panels/signing/store/from-first.ts';
import { checkPhoto } from '../../src/records/index.ts';
import { cameraBlock, photoBytes } from '../helpers/photo-bytes.ts';

describe('what a refusal means for a signed record', () => {
  it.each([
    [0, '', 'later'],
    [408, '', 'later'],
    [429, 'password', 'later'],
    [500, '', 'later'],
    [503, '', 'later'],
    [401, '', 'signed-out'],
    [403, 'ticket', 'password'],
    [403, 'event.by', 'not-allowed'],
    [403, '', 'not-allowed'],
    [400, 'sheet', 'refused'],
    [404, '', 'refused'],
    [413, 'photo', 'refused'],
    [422, 'at', 'refused'],
  ])('%i for %j: %s', (status, path, means) => {
    expect(judgeRefusal({ status, path })).toBe(means);
  });

  it('waits twice as long after each failure, and never longer than five minutes', () => {
    expect([0, 1, 2, 3].map(waitAfter)).toEqual([0, 2000, 4000, 8000]);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), (failures) => {
        expect(waitAfter(failures + 1)).toBeGreaterThanOrEqual(waitAfter(failures));
        expect(waitAfter(failures)).toBeLessThanOrEqual(300_000);
      }),
    );
  });
});

describe('the password check of a device', () => {
  it('lets two slips pass, then makes each further try wait longer, to an hour', () => {
    expect([1, 2, 3, 4, 5].map(waitAfterWrong)).toEqual([0, 0, 5000, 10_000, 20_000]);
    expect(waitAfterWrong(60)).toBe(3_600_000);
  });

  it('counts for thirty days, and not when it was made by a clock that was ahead', () => {
    const madeAt = '2026-03-03T08:00:00.000Z';
    const at = (days: number, ms = 0) => Date.parse(madeAt) + days * 86_400_000 + ms;
    expect(isFresh({ madeAt }, at(30))).toBe(true);
    expect(isFresh({ madeAt }, at(30, 1))).toBe(false);
    expect(isFresh({ madeAt }, at(-1))).toBe(true);
    expect(isFresh({ madeAt }, at(-1, -1))).toBe(false);
  });
});

describe('a photo as a file', () => {
  it('is a JPEG with nothing in it but the picture', () => {
    expect(checkPhoto(photoBytes())).toBeNull();
  });

  it.each([
    ['Exif or XMP', 0xe1, 'Exif\0\0 N51.5'],
    ['IPTC', 0xed, 'Photoshop 3.0'],
  ])('is refused with %s data', (name, marker, text) => {
    expect(checkPhoto(photoBytes(0, cameraBlock(marker, text)))).toBe(
      `photo must hold nothing but the picture: it carries ${name} data, which may tell where it was taken.`,
    );
  });

  it('is refused with place data behind a comment, and behind fill bytes', () => {
    const comment = cameraBlock(0xfe, 'made in a shop');
    expect(checkPhoto(photoBytes(0, comment))).toMatch(/carries comment data/);
    const hidden = [0xff, 0xff, ...cameraBlock(0xe1, 'Exif')];
    expect(checkPhoto(photoBytes(0, hidden))).toMatch(/Exif/);
  });

  it('is refused when it is cut short anywhere, and never throws', () => {
    const whole = photoBytes();
    for (let length = 0; length < whole.length; length += 1) {
      expect(checkPhoto(whole.slice(0, length)), String(length)).not.toBeNull();
    }
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        const problem = checkPhoto(bytes);
        expect(problem === null || problem.startsWith('photo must')).toBe(true);
      }),
    );
  });

  it('is refused above 800 kB', () => {
    expect(checkPhoto(new Uint8Array(800_001))).toBe('photo must be at most 800 kB.');
  });
});

it('brings a record of the first store over with nothing of it lost', () => {
  const first = {
    signoff: 'a',
    sheetKey: 'ruth/a',
    title: 'signed',
    path: '/practical/new',
    trainer: 'ruth',
    signedAt: '2026-03-03T08:00:00Z',
    statementHash: '0'.repeat(64),
    request: { event: { id: 'a', by: 'ruth', body: {} }, sheet: {} },
  };
  expect(asUnsent(first, 3)).toEqual({
    ...first,
    order: 3,
    ticket: null,
    photos: [],
    logged: null,
    drafts: [],
  });
});
