// Reads the drawn code back with an independent reader (jsQR), from the picture a phone would see.
import jsQR from 'jsqr';
import { renderSVG } from 'uqr';
import { expect, it } from 'vitest';

/** Paints the squares of uqr's path, `M x,y h10v10h-10z`, at one pixel per unit. */
function paint(svg: string): { pixels: Uint8ClampedArray; size: number } {
  const size = Number(/viewBox="0 0 (\d+)/.exec(svg)?.[1]);
  const pixels = new Uint8ClampedArray(size * size * 4).fill(255);
  for (const [, left, top] of svg.matchAll(/M(\d+),(\d+)h10/g)) {
    for (let y = Number(top); y < Number(top) + 10; y++) {
      for (let x = Number(left); x < Number(left) + 10; x++) {
        pixels.fill(0, (y * size + x) * 4, (y * size + x) * 4 + 3);
      }
    }
  }
  return { pixels, size };
}

it('an invitation link reads back from its code', () => {
  const link = 'https://saw.example/invitation/Nkqwjl7xSLLpwwKROMdRIWJCOLdMqc6Xrk95N8RHtos';
  const { pixels, size } = paint(renderSVG(link, { ecc: 'M', border: 4 }));
  expect(jsQR(pixels, size, size)?.data).toBe(link);
});

it('the code carries no style attribute, which the content policy would refuse', () => {
  expect(renderSVG('x')).not.toContain('style');
});
