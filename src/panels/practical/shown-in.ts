import { useEffect, useState } from 'preact/hooks';
import type { LengthUnit } from '../../geometry/index.ts';

const current = (): LengthUnit =>
  document.documentElement.dataset['unit'] === 'inch' ? 'inch' : 'mm';

/** The unit chosen in the strip at the top: what a fresh field starts in. */
export function useShownIn(): LengthUnit {
  const [unit, setUnit] = useState<LengthUnit>(current);
  useEffect(() => {
    const follow = () => setUnit(current());
    document.addEventListener('unitchange', follow);
    return () => document.removeEventListener('unitchange', follow);
  }, []);
  return unit;
}
