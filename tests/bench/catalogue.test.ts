import { describe, expect, it } from 'vitest';
import { isMeasureId, MEASURE_IDS, MEASURES } from '../../src/bench/index.ts';

/**
 * Part and unit of every measure, restated: limit files, records and other programs lean on the ids
 * and the units, and a fault is looked for on the part.
 */
const WANTED: Readonly<Record<string, readonly [part: string, unit: string]>> = {
  'blade.projection': ['blade', 'mm'],
  'blade.aboveStock': ['blade', 'mm'],
  'blade.sizeRatio': ['blade', '1'],
  'blade.rimSpeed': ['blade', 'm/s'],
  'blade.speedUse': ['blade', '1'],
  'blade.entryAngle': ['blade', 'deg'],
  'blade.teethInCut': ['blade', 'count'],
  'blade.crack': ['blade', 'mm'],
  'knife.gapMax': ['knife', 'mm'],
  'knife.gapMin': ['knife', 'mm'],
  'knife.gapAtTable': ['knife', 'mm'],
  'knife.tipHeight': ['knife', 'mm'],
  'knife.tipDrop': ['knife', 'mm'],
  'knife.overPlate': ['knife', 'mm'],
  'knife.underKerf': ['knife', 'mm'],
  'knife.plateRatio': ['knife', '1'],
  'knife.sideClear': ['knife', 'mm'],
  'knife.radiusOver': ['knife', 'mm'],
  'knife.arcShare': ['knife', '1'],
  'knife.play': ['knife', 'mm'],
  'guard.clearance': ['guard', 'mm'],
  'guard.leadFront': ['guard', 'mm'],
  'guard.leadRear': ['guard', 'mm'],
  'guard.coversGullets': ['guard', 'yes/no'],
  'guard.play': ['guard', 'mm'],
  underGuard: ['under-guard', 'word'],
  'fence.overrun': ['fence', 'mm'],
  'fence.pastGullets': ['fence', 'mm'],
  'fence.toe': ['fence', 'mm'],
  'insert.gapMax': ['insert', 'mm'],
  'insert.step': ['insert', 'mm'],
  'table.outfeedFromSpindle': ['table', 'mm'],
  'table.outfeedFromTeeth': ['table', 'mm'],
  'stock.tipsBy': ['stock', 'mm'],
  'stick.length': ['push-stick', 'mm'],
  'stick.lastFed': ['push-stick', 'mm'],
  'hand.nearest': ['people', 'mm'],
  'arbor.runDown': ['arbor', 's'],
  'arbor.runUp': ['arbor', 's'],
  'place.light': ['place', 'lx'],
  'place.uniformity': ['place', '1'],
  'noise.exposure': ['people', 'dB(A)'],
  'noise.atEar': ['people', 'dB(A)'],
  'noise.peak': ['people', 'dB(C)'],
  'noise.dose': ['people', '%'],
  'dust.exposure': ['people', 'mg/m3'],
  'dust.respirable': ['people', 'mg/m3'],
};

describe('the catalogue of measures', () => {
  it('has these measures and no others', () => {
    expect([...MEASURE_IDS]).toEqual(Object.keys(WANTED));
    expect(isMeasureId('knife.gapMax')).toBe(true);
    expect(isMeasureId('knife.gapp')).toBe(false);
    expect(isMeasureId('toString')).toBe(false);
  });

  it.each(MEASURE_IDS.map((id) => [id]))('%s is on its part and in its unit', (id) => {
    const { part, unit, title } = MEASURES[id];
    expect([part, unit]).toEqual(WANTED[id]);
    expect(title).toMatch(/^[A-Z]/);
  });
});
