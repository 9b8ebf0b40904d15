import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { Draft } from '../../competence/sheet/index.ts';
import { askToKeepStore, dropSheet, keepSheet, keptSheet } from '../signing/index.ts';

/** Whether what is on the screen is also on the disk of this device. */
export type Keeping =
  | { readonly state: 'opening' }
  | { readonly state: 'kept'; readonly at: Date | null }
  | { readonly state: 'keeping' }
  | { readonly state: 'not-kept' };

export type KeptDraft = {
  readonly draft: Draft;
  readonly keeping: Keeping;
  /** when the sheet found on this device was last typed in; null for a fresh one */
  readonly restoredFrom: Date | null;
  readonly change: (part: Partial<Draft>) => void;
  readonly startAfresh: () => void;
};

/**
 * A sheet that is written to this device at every keystroke, and found again after a reload.
 * @param fresh makes an empty sheet
 */
export function useKeptDraft(
  { sheetKey, title, path }: { sheetKey: string; title: string; path: string },
  fresh: () => Draft,
): KeptDraft {
  const [draft, setDraft] = useState(fresh);
  const [keeping, setKeeping] = useState<Keeping>({ state: 'opening' });
  const [restoredFrom, setRestoredFrom] = useState<Date | null>(null);
  const latest = useRef(draft);
  const isTyped = useRef(false);

  useEffect(() => {
    keptSheet(sheetKey)
      .then((kept) => {
        if (kept !== undefined && !isTyped.current) {
          latest.current = { ...fresh(), ...(kept.sheet as Partial<Draft>) };
          setDraft(latest.current);
          setRestoredFrom(new Date(kept.savedAt));
        }
        setKeeping({ state: 'kept', at: kept === undefined ? null : new Date(kept.savedAt) });
      })
      .catch(() => setKeeping({ state: 'not-kept' }));
  }, [sheetKey]);

  const change = useCallback(
    (part: Partial<Draft>) => {
      isTyped.current = true;
      latest.current = { ...latest.current, ...part };
      const sheet = latest.current;
      setDraft(sheet);
      setKeeping({ state: 'keeping' });
      const savedAt = new Date();
      keepSheet({ sheetKey, title, path, savedAt: savedAt.toISOString(), sheet })
        .then(() => {
          if (latest.current === sheet) setKeeping({ state: 'kept', at: savedAt });
        })
        .catch(() => setKeeping({ state: 'not-kept' }));
      void askToKeepStore();
    },
    [sheetKey, title, path],
  );

  const startAfresh = useCallback(() => {
    latest.current = fresh();
    setDraft(latest.current);
    setRestoredFrom(null);
    void dropSheet(sheetKey).then(() => setKeeping({ state: 'kept', at: null }));
  }, [sheetKey, fresh]);

  return { draft, keeping, restoredFrom, change, startAfresh };
}
