// Contrast by WCAG 2.2: relative luminance and ratio as defined in its glossary; at least 4.5 for text
// (1.4.3) and 3 for control borders and marks that carry meaning (1.4.11). https://www.w3.org/TR/WCAG22/
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('../../src/styles/tokens.css', import.meta.url), 'utf8');

function tokensOf(block: string): Map<string, string> {
  return new Map([...block.matchAll(/--([\w-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!]));
}
const [light = '', darkByDevice = '', darkByChoice = ''] = css
  .split(/\n\s*:root/)
  .slice(1)
  .map((part) => part.slice(0, part.indexOf('}')));
const base = tokensOf(light);
const themes = {
  light: base,
  dark: new Map([...base, ...tokensOf(darkByChoice)]),
};

function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(a: string, b: string): number {
  const [dark, bright] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (bright + 0.05) / (dark + 0.05);
}

describe('the contrast formula', () => {
  it('gives 21 for black on white and 4.54 for #767676 on white (WCAG 2.2 glossary; known pair)', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });
});

describe.each(Object.entries(themes))('%s theme', (_, tokens) => {
  const ratio = (a: string, b: string) => contrast(tokens.get(a) ?? '', tokens.get(b) ?? '');
  const text = ['ink', 'pencil'].flatMap((fore) =>
    ['ground', 'sheet', 'sheet-sunk'].map((back) => [fore, back] as const),
  );
  it.each([...text, ['on-fill', 'fill'], ['on-fill', 'fill-hover']] as const)(
    'text %s on %s reaches 4.5',
    (fore, back) => {
      expect(ratio(fore, back)).toBeGreaterThanOrEqual(4.5);
    },
  );
  it.each([
    ['rule', 'sheet'],
    ['rule', 'sheet-sunk'],
  ] as const)('control line %s on %s reaches 3', (fore, back) => {
    expect(ratio(fore, back)).toBeGreaterThanOrEqual(3);
  });
  it.each(['draw-steel', 'draw-iron', 'draw-timber', 'draw-guard'])(
    'drawing lines stand out from %s by 3',
    (back) => {
      expect(ratio('ink', back)).toBeGreaterThanOrEqual(3);
    },
  );
});

describe('severity colours', () => {
  it.each(['prohibition', 'mandatory', 'safe'])(
    '%s stands out from the white in its mark by 4.5',
    (name) => {
      expect(contrast(base.get(name) ?? '', '#ffffff')).toBeGreaterThanOrEqual(4.5);
    },
  );
  it('black on the warning yellow reaches 4.5', () => {
    expect(contrast('#111111', base.get('warning') ?? '')).toBeGreaterThanOrEqual(4.5);
  });
  it('the marks use the token colours', () => {
    const marks = readFileSync(new URL('../../public/marks.svg', import.meta.url), 'utf8');
    for (const name of ['prohibition', 'warning', 'mandatory', 'safe']) {
      expect(marks).toContain(base.get(name));
    }
  });
});

it('gives the same dark sheet by device and by choice', () => {
  expect(tokensOf(darkByDevice)).toEqual(tokensOf(darkByChoice));
});
