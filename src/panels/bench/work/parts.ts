import {
  CLAMPED_PARTS,
  type ClampedPart,
  INSTRUMENT_IDS,
  type InstrumentId,
  MEASURING_POINT_IDS,
  MEASURING_POINTS,
  type MeasuringPointId,
  type Part,
  SETTING_IDS,
  SETTINGS,
  type SettingId,
  WALK,
} from '../../../bench/index.ts';

export const isPart = (text: string): text is Part => (WALK as readonly string[]).includes(text);
export const isClamped = (part: Part): part is ClampedPart =>
  (CLAMPED_PARTS as readonly Part[]).includes(part);

/** What is in the hand: an instrument, the hand itself, or nothing. */
export type Tool = InstrumentId | 'hand';
export const TOOLS: readonly Tool[] = ['hand', ...INSTRUMENT_IDS];

export const instrumentsAt = (at: MeasuringPointId): readonly InstrumentId[] =>
  MEASURING_POINTS[at].instruments;

/** The places on a part where something can be measured; with one tool, when one is in the hand. */
export function placesOn(part: Part, tool: InstrumentId | null = null): MeasuringPointId[] {
  return MEASURING_POINT_IDS.filter(
    (at) =>
      MEASURING_POINTS[at].part === part && (tool === null || instrumentsAt(at).includes(tool)),
  );
}

export const settingsOf = (part: Part): SettingId[] =>
  SETTING_IDS.filter((setting) => SETTINGS[setting].part === part);
