import { z } from 'zod';
import { length, oneOf, part, quantity, yesNo } from './fields.ts';

export const ControlsSchema = part({
  /** mm from the operating position to the stop control */
  stopReach: length(0, 10_000),
  /** the hand passes over or beside the blade to reach the stop */
  stopOverBlade: yesNo().optional(),
  /** pressed, it stops the saw */
  stopWorks: yesNo().optional(),
  /** the start control is sunk or covered, so that nothing presses it by chance */
  startShrouded: yesNo().optional(),
  /** does not start again by itself after a power cut */
  underVoltage: yesNo(),
  isolator: oneOf('lockable', 'plain', 'none'),
  /** it says which machine it cuts off */
  isolatorMarked: yesNo().optional(),
  /** stock or a machine stands in the way of it */
  isolatorBlocked: yesNo().optional(),
  /** what the blade is doing; left out, it stands still */
  turning: oneOf('still', 'running', 'slowing').optional(),
  /** the supply is off at the isolator and locked off */
  isolated: yesNo().default(false),
  /** where the key is while the supply is locked off */
  lockKey: oneOf('with-person', 'in-lock').optional(),
});

/** What is kept round the bench, and how. */
const StorageSchema = part({
  /** boards and sheets */
  stock: oneOf('racked', 'stacked', 'leaning').optional(),
  /** spare blades */
  blades: oneOf('racked', 'loose').optional(),
  /** what is stored stands in the way to the bench, a switch or a door */
  blocksWay: yesNo().optional(),
  /** solvent, finish or fuel stands by the bench or its dust */
  solvents: yesNo().optional(),
});

export const PlaceSchema = part({
  /** the kind of workshop the bench stands in; a joinery shop when left out */
  setting: oneOf('joinery', 'school', 'site').optional(),
  floor: oneOf('sound', 'slippery', 'uneven'),
  litter: yesNo(),
  /** a film of fine dust on a floor that is clear */
  dusty: yesNo().optional(),
  /** lx on the table */
  light: quantity(0, 100_000, 'lx'),
  /** least illuminance over mean */
  uniformity: quantity(0, 1, ''),
  /** the same of the surround, outside the working area */
  lightAround: quantity(0, 100_000, 'lx').optional(),
  uniformityAround: quantity(0, 1, '').optional(),
  /** a lamp or the sun shines in the operator's eyes */
  glare: yesNo().optional(),
  /** the light flickers with the mains, so that a turning blade can look still */
  flicker: yesNo().optional(),
  walkwaysMarked: yesNo(),
  wasteBin: yesNo(),
  toolsOnTable: yesNo(),
  foundation: oneOf('bolted', 'loose'),
  storage: StorageSchema.optional(),
});

/** How dust and chips are taken off. Left out when nothing is known of it. */
export const ExtractionSchema = part({
  /** where it takes hold */
  kind: oneOf('none', 'below', 'above-and-below'),
  /** it runs while the saw runs */
  running: yesNo(),
  hose: oneOf('sound', 'loose', 'split'),
  bag: oneOf('room', 'full'),
});

/** What a working day at the bench does to ears and lungs. Left out when it was not measured. */
export const ExposureSchema = part({
  /** stretches of the day at one level; the rest of 8 h counts as quiet */
  noise: z
    .array(
      part({
        /** dB(A) at the operator's ear */
        level: quantity(0, 140, 'dB(A)'),
        hours: quantity(0.01, 24, 'h'),
      }),
      { error: 'must be a list' },
    )
    .min(1, { error: 'must list at least one stretch of the day' })
    .max(48, { error: 'must list at most 48 stretches of the day' })
    .optional(),
  /** dB(C), highest peak of the day */
  peak: quantity(0, 170, 'dB(C)').optional(),
  /** dB that ear protection takes off as it is worn */
  protection: quantity(0, 40, 'dB').optional(),
  dust: part({
    /** mg/m3 of inhalable or total dust over 8 h */
    level: quantity(0, 1000, 'mg/m3'),
    /** mg/m3 of respirable dust over 8 h */
    respirable: quantity(0, 1000, 'mg/m3').optional(),
    wood: oneOf('softwood', 'hardwood', 'mixed'),
  }).optional(),
});
