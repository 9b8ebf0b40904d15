export { type DrawingRequest, drawBench } from './draw-bench.ts';
export { type DimensionId, isDimensionId } from './measures.ts';
export type { Clip } from './sheet.ts';
export {
  type Crop,
  ENGLISH,
  PART_LABELS,
  type PartLabel,
  type View,
  type Wording,
} from './view.ts';
