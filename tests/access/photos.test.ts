import { describe, expect, it } from 'vitest';
import { checkPhoto, LONGEST_SIDE, stripPhoto } from '../../src/records/index.ts';
import { cameraBlock, photoBytes } from '../helpers/photo-bytes.ts';

/** Markers by ITU-T T.81, table B.1; what stands in them by Exif 2.32, XMP part 3, the IPTC IIM and ICC.1. */
const GPS = cameraBlock(0xe1, 'Exif\0\0MM\0*GPS 51.5 N 0.1 W');
const XMP = cameraBlock(0xe1, 'http://ns.adobe.com/xap/1.0/\0<x:xmpmeta/>');
const IPTC = cameraBlock(0xed, 'Photoshop 3.0\x008BIM');
const COMMENT = cameraBlock(0xfe, 'taken by Mira Holt');
const MAKER = cameraBlock(0xe7, 'maker notes');
const MORE_PICTURES = cameraBlock(0xe2, 'MPF\0MM');
const COLOURS = cameraBlock(0xe2, 'ICC_PROFILE\0\x01\x01');
const TELLING = { GPS, XMP, IPTC, COMMENT, MAKER, MORE_PICTURES };

const holds = (bytes: Uint8Array, text: string) => Buffer.from(bytes).includes(text);

function withSides(width: number, height: number): Uint8Array {
  const bytes = photoBytes();
  const frame = bytes.findIndex((byte, i) => byte === 0xff && bytes[i + 1] === 0xc0);
  bytes.set([height >> 8, height & 255, width >> 8, width & 255], frame + 5);
  return bytes;
}

describe('a photo as it comes to the site', () => {
  it.each(Object.entries(TELLING))('is refused with %s, and taken once that is off', (_, block) => {
    const bytes = photoBytes(7, block);
    expect(checkPhoto(bytes)).toMatch(/^photo must hold nothing but the picture/);
    expect(checkPhoto(stripPhoto(bytes))).toBeNull();
    expect([...stripPhoto(bytes)]).toEqual([...photoBytes(7)]);
  });

  it('loses all of it at once and keeps what the picture needs', () => {
    const bytes = photoBytes(9, [...COLOURS, ...GPS, ...XMP, ...IPTC, ...COMMENT, ...MAKER]);
    const stripped = stripPhoto(bytes);
    for (const text of ['GPS', 'xmpmeta', '8BIM', 'Mira', 'maker']) {
      expect(holds(bytes, text), text).toBe(true);
      expect(holds(stripped, text), text).toBe(false);
    }
    expect(holds(stripped, 'ICC_PROFILE')).toBe(true);
    expect(checkPhoto(stripped)).toBeNull();
  });

  it('is refused with a block between two scans, where a reader that stops at the first does not look', () => {
    const plain = [...photoBytes(3)];
    const scan = plain.slice(plain.lastIndexOf(0xda) - 1, -2);
    const hidden = new Uint8Array([...plain.slice(0, -2), ...GPS, ...scan, 0xff, 0xd9]);
    expect(checkPhoto(hidden)).toMatch(/Exif/);
    expect(holds(stripPhoto(hidden), 'GPS')).toBe(false);
    expect(checkPhoto(stripPhoto(hidden))).toBeNull();
  });

  it('is refused with anything behind its end, such as a film or a second picture', () => {
    const second = new Uint8Array([...photoBytes(1), ...photoBytes(2, GPS)]);
    expect(checkPhoto(second)).toMatch(/behind its end/);
    expect([...stripPhoto(second)]).toEqual([...photoBytes(1)]);
  });

  it('has sides a decoder can be asked for', () => {
    for (const [width, height] of [
      [LONGEST_SIDE, LONGEST_SIDE],
      [1, 1],
    ] as const) {
      expect(checkPhoto(withSides(width, height))).toBeNull();
    }
    for (const [width, height] of [
      [LONGEST_SIDE + 1, 1],
      [1, LONGEST_SIDE + 1],
      [65_535, 65_535],
      [0, 1],
      [1, 0],
    ] as const) {
      expect(checkPhoto(withSides(width, height))).toMatch(/1 to 4096 pixels/);
    }
  });

  it('is no picture when it is cut short anywhere', () => {
    const whole = photoBytes(5, COLOURS);
    for (let length = 0; length < whole.length; length++) {
      expect(checkPhoto(whole.subarray(0, length)), String(length)).not.toBeNull();
    }
  });
});
