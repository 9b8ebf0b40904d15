/** Where within a limit a setting is best. */
export type Aim = 'low' | 'middle' | 'high' | null;

const clamp = (share: number): number => Math.min(1, Math.max(0, share));

/**
 * How near a setting inside its limit stands to the best one: 1 at the aim, 0 at the limit.
 * A limit without an aim is as well met anywhere inside, so closeness is 1.
 * @param min the least allowed; `low` counts from 0 where none is published
 */
export function closenessOf(
  value: number,
  { min, max }: { readonly min: number | null; readonly max: number | null },
  aim: Aim,
): number {
  if (aim === null || max === null) return 1;
  const low = min ?? 0;
  const span = max - low;
  if (span <= 0) return 1;
  if (aim === 'low') return clamp((max - value) / span);
  if (aim === 'high') return clamp((value - low) / span);
  return clamp(1 - Math.abs(2 * value - low - max) / span);
}
