import { describe, expect, it } from 'vitest';
import { placeBalloons, wordBoxes } from '../../src/drawing/place-balloons.ts';
import { words } from '../../src/drawing/text.ts';
import { readXml } from './read-svg.ts';
import { overlaps, textBoxes } from './text-boxes.ts';

const SHEET = { width: 680, height: 400 };
const boxesOf = (markup: string) => textBoxes(readXml(`<svg>${markup}</svg>`), 'mm');

describe('numbered balloons', () => {
  it('stand where they are asked to when that is free', () => {
    const markup = placeBalloons(
      [{ at: { x: 300, y: 200 }, target: { x: 340, y: 240 } }],
      '',
      SHEET,
    );
    expect(markup).toContain('cx="300" cy="200"');
  });

  it('give way to words, to one another and to the edge of the sheet', () => {
    const around = words('Operator', { x: 290, y: 205 });
    const at = { x: 300, y: 200 };
    const spots = [at, at, { x: 2, y: 2 }, { x: 679, y: 399 }].map((one) => ({
      at: one,
      target: at,
    }));
    const markup = placeBalloons(spots, around, SHEET);
    const boxes = boxesOf(around + markup);
    expect(boxes.length).toBe(5);
    expect(overlaps(boxes)).toEqual([]);
    for (const box of boxes) {
      expect(box.left).toBeGreaterThanOrEqual(0);
      expect(box.top).toBeGreaterThanOrEqual(0);
      expect(box.right).toBeLessThanOrEqual(SHEET.width);
      expect(box.bottom).toBeLessThanOrEqual(SHEET.height);
    }
  });

  it('keep the number of a part that is not there free', () => {
    const spot = { at: { x: 300, y: 200 }, target: { x: 340, y: 240 } };
    expect(placeBalloons([null, spot], '', SHEET)).toContain('data-number="2"');
  });

  it('know the boxes of words by their anchors', () => {
    const [start, end] = wordBoxes(
      words('Take-off', { x: 100, y: 50 }) + words('Take-off', { x: 100, y: 50 }, 'end'),
    );
    expect(start?.left).toBe(100);
    expect(end?.right).toBe(100);
  });
});
