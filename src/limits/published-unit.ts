import { MM_PER_INCH } from '../geometry/index.ts';
import type { PublishedUnit } from './limit-schema.ts';

/** From the unit a figure was published in to that of its measure: inches are held in mm. */
export const unitScale = (unit: PublishedUnit): number => (unit === 'in' ? MM_PER_INCH : 1);
