import { describe, expect, it } from 'vitest';
import { findTypedFigures } from '../../src/content-check/index.ts';

describe('a typed figure', () => {
  it.each([
    ['set it to 8 mm', '8 mm'],
    ['leave 3.5mm', '3.5mm'],
    ['at most 1/4 in.', '1/4 in'],
    ['a 2 inch gap', '2 inch'],
    ['62 m/s', '62 m/s'],
    ['in 10 seconds', '10 seconds'],
    ['a 5/16" gap', '5/16"'],
    ['at 15° of tilt', '15°'],
    ['about 20 % of it', '20 %'],
    ['every 3 to 5 years', '5 years'],
    ['a board of eight millimetres', 'eight millimetres'],
    ['a two-metre board', 'two-metre'],
    ['half a second', 'half a second'],
    ['a quarter of an inch', 'quarter of an inch'],
    ['over two\nlines: ten\nseconds', 'ten\nseconds'],
  ])('is found in "%s"', (text, found) => {
    expect(findTypedFigures(text).map((one) => one.text)).toEqual([found]);
  });

  it.each([
    'three things',
    'step 2 in the list',
    'EN 1870-1',
    'in 1974 it was',
    'back in the 1990s',
    'WIS 16 s',
    'a second person stands there',
    'one foot on the floor',
    'two second-hand blades',
    'the gap is {knife.gapAtTable} wide',
    '29 CFR 570.55 and Directive 2017/2398',
  ])('is not found in "%s"', (text) => expect(findTypedFigures(text)).toEqual([]));
});
