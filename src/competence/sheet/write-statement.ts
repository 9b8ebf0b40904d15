import type { Unit } from '../unit-schema.ts';
import type { Settled } from './settled.ts';
import { isSignedTogether, type Sheet, type SheetNow } from './sheet.ts';

/** What the site knows and the trainer does not type. */
export type StatementContext = {
  readonly signoff: string;
  readonly org: string;
  readonly who: { readonly person: string; readonly nameHash: string };
  readonly trainer: { readonly person: string; readonly nameHash: string };
  readonly bench: {
    readonly id: string;
    readonly asset: string;
    readonly guardKind: 'fixed' | 'self-closing' | 'counterweighted' | 'suspended' | 'none';
  };
  readonly limits: { readonly set: string; readonly version: string };
};

/** The only sort of machine this site knows. */
export const MACHINE_CLASS = 'hand-fed circular saw bench';

/** Marks a criterion that stands for an error the work was stopped for. */
export const STOP_PREFIX = 'stop/';

/**
 * Everything a trainer signs, made from the checked sheet and nothing else, so that device and site
 * write the same bytes. The sentence of meaning is added by the caller: it belongs to the records.
 */
export function writeStatement(
  sheet: SheetNow,
  settled: readonly Settled[],
  unit: Unit,
  context: StatementContext,
): StatementTogether;
export function writeStatement(
  sheet: Sheet,
  settled: readonly Settled[],
  unit: Unit,
  context: StatementContext,
): StatementAlone | StatementTogether;
export function writeStatement(
  sheet: Sheet,
  settled: readonly Settled[],
  unit: Unit,
  context: StatementContext,
): StatementAlone | StatementTogether {
  const alone = writeAlone(sheet, settled, unit, context);
  if (!isSignedTogether(sheet)) return alone;
  const { practical, photos, acknowledged, confirmed } = sheet;
  return {
    ...alone,
    schema: 'statement/2',
    practical,
    photos: photos.map(({ digest, criterion }) => ({ digest, criterion })),
    acknowledged: { ...acknowledged },
    confirmed,
  };
}

type StatementAlone = ReturnType<typeof writeAlone>;
type StatementTogether = Omit<StatementAlone, 'schema'> & {
  schema: 'statement/2';
  practical: string;
  photos: { digest: string; criterion: string | null }[];
  acknowledged: SheetNow['acknowledged'];
  confirmed: SheetNow['confirmed'];
};

function writeAlone(
  sheet: Sheet,
  settled: readonly Settled[],
  unit: Unit,
  context: StatementContext,
) {
  const texts = new Map(unit.criteria.map(({ id, text }) => [id, text]));
  const stops = unit.stops
    .filter(({ id }) => sheet.stops.includes(id))
    .map(({ id, text }, index) => ({
      id: `${STOP_PREFIX}${id}`,
      text: `The work was stopped. ${text}`,
      result: 'no' as const,
      ...(index === 0 && sheet.stopNote !== undefined ? { note: sheet.stopNote } : {}),
    }));
  return {
    schema: 'statement/1' as const,
    signoff: context.signoff,
    org: context.org,
    who: context.who,
    trainer: { ...context.trainer, role: 'trainer' as const },
    unit: { id: unit.id, version: String(unit.version), title: unit.title },
    bench: { ...context.bench, class: MACHINE_CLASS },
    work: sheet.work,
    material: sheet.material,
    blade: sheet.blade,
    observedAt: sheet.observedAt,
    place: sheet.place,
    criteria: [
      ...sheet.criteria.map((one) => ({ ...one, text: texts.get(one.id) ?? one.id })),
      ...stops,
    ],
    settings: settled.map(({ signed }) => ({ ...signed })),
    limits: context.limits,
    conditions: [...sheet.conditions],
    decision: sheet.decision,
    validFrom: sheet.validFrom,
    validUntil: sheet.validUntil,
  };
}
