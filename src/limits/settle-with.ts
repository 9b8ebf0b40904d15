import { isMeasureId, type Taking, takingsOf } from '../bench/index.ts';
import type { Result } from './judge.ts';

/**
 * What would settle a setting that is too close to call: the coarsest instrument whose uncertainty
 * is smaller than the distance to the limit (ISO 14253-1).
 * @returns null when the verdict is settled, and when no instrument here is fine enough: then the
 *   setting has to be moved further inside
 */
export function settlesWith({
  verdict,
  measure,
  value,
  margin,
}: Pick<Result, 'verdict' | 'measure' | 'value' | 'margin'>): Taking | null {
  if (verdict !== 'too-close' || typeof value !== 'number' || margin === null) return null;
  if (!isMeasureId(measure)) return null;
  const fine = takingsOf(measure, value).find(({ uncertainty }) => uncertainty < Math.abs(margin));
  return fine ?? null;
}
