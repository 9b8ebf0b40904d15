import type { InstrumentId } from './instruments.ts';
import type { MeasuringPointId } from './measuring-points.ts';

/** Parts that are unlocked, moved and locked by hand. */
export const CLAMPED_PARTS = ['knife', 'guard', 'fence'] as const;
export type ClampedPart = (typeof CLAMPED_PARTS)[number];

/**
 * What a hand can set: which part's clamp holds it, how finely it moves, and its range in mm.
 * `guard.front` slides the whole guard along its arm, so the rear end moves with it.
 */
export const SETTINGS = {
  'knife.along': {
    part: 'knife',
    title: 'Riving knife, toward or away from the blade',
    step: 0.5,
    least: -60,
    most: 120,
  },
  'knife.up': {
    part: 'knife',
    title: 'Riving knife, up or down',
    step: 0.5,
    least: -120,
    most: 120,
  },
  'guard.height': { part: 'guard', title: 'Crown guard, up or down', step: 1, least: 0, most: 400 },
  'guard.front': {
    part: 'guard',
    title: 'Crown guard, along its arm',
    step: 5,
    least: -700,
    most: 0,
  },
  'fence.end': { part: 'fence', title: 'Fence, far end', step: 5, least: -600, most: 800 },
  'fence.face': {
    part: 'fence',
    title: 'Fence, distance from the kerf',
    step: 1,
    least: 0,
    most: 600,
  },
  'arbor.depth': { part: 'blade', title: 'Blade, rise and fall', step: 1, least: 10, most: 400 },
} as const;
export type SettingId = keyof typeof SETTINGS;
export const SETTING_IDS = Object.keys(SETTINGS) as readonly SettingId[];

/** One thing a person does at the bench. Plain data, so that it can be sent, stored and replayed. */
export type Action =
  | { readonly do: 'isolate' | 'reconnect' }
  /** the two buttons, and waiting beside the stopped saw until the blade stands still */
  | { readonly do: 'start' | 'stop' | 'wait' }
  /** a trial cut; `stopped`: s into the feed at which stop was pressed and the work held, or null */
  | { readonly do: 'feed'; readonly stopped: number | null }
  | { readonly do: 'unlock' | 'lock'; readonly part: ClampedPart }
  | { readonly do: 'set'; readonly setting: SettingId; readonly to: number }
  | { readonly do: 'rest-fingers' | 'raise-fingers' }
  | {
      readonly do: 'measure';
      readonly with: InstrumentId;
      readonly at: MeasuringPointId;
      /** mm as the trainee read the scale, null for "it takes nothing here"; left out where it is told */
      readonly read?: number | null;
    }
  | { readonly do: 'try'; readonly part: ClampedPart }
  | { readonly do: 'look'; readonly at: string };
