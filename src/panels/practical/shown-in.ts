import { useEffect, useState } from 'preact/hooks';
import type { LengthUnit } from '../../geometry/index.ts';
import { pageUnit } from '../../words/spoken.ts';

/** The unit chosen in the strip at the top: what a fresh field starts in. */
export function useShownIn(): LengthUnit {
  const [unit, setUnit] = useState<LengthUnit>(pageUnit);
  useEffect(() => {
    const follow = () => setUnit(pageUnit());
    document.addEventListener('unitchange', follow);
    return () => document.removeEventListener('unitchange', follow);
  }, []);
  return unit;
}
