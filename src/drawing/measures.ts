import { type Bench, isMeasureId, MEASURES, type MeasureId, measureBench } from '../bench/index.ts';
import type { Sized } from './dimension.ts';

/** Plain sizes a drawing may show that are given, not measured. */
const PLAIN = {
  'blade.diameter': (b: Bench) => b.blade.diameter,
  'blade.plate': (b: Bench) => b.blade.plate,
  'blade.kerf': (b: Bench) => b.blade.kerf,
  'knife.thickness': (b: Bench) => b.knife?.thickness ?? null,
  'stock.thickness': (b: Bench) => b.job.stock.thickness,
  'fence.face': (b: Bench) => b.fence.face,
  'insert.gapLeft': (b: Bench) => b.insert.gaps[0],
  'insert.gapRight': (b: Bench) => b.insert.gaps[1],
} as const satisfies Record<string, (bench: Bench) => number | null>;

export type PlainSizeId = keyof typeof PLAIN;
export type DimensionId = MeasureId | PlainSizeId;

export const isDimensionId = (text: string): text is DimensionId =>
  isMeasureId(text) || Object.hasOwn(PLAIN, text);

/** The length a dimension shows, mm; null when the part is off or the measure is no length. */
export function sizeOf(bench: Bench, id: DimensionId): Sized | null {
  if (!isMeasureId(id)) {
    const mm = PLAIN[id](bench);
    return mm === null ? null : { id, mm };
  }
  const value = measureBench(bench)[id];
  return typeof value === 'number' && MEASURES[id].unit === 'mm' ? { id, mm: value } : null;
}
