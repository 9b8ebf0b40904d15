import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import { askToKeepStore, dropSheet, keepSheet, keptSheet, sayInUse } from '../signing/index.ts';

/** Whether what is on the screen is also on the disk of this device. */
export type Keeping =
  | { readonly state: 'opening' }
  | { readonly state: 'kept'; readonly at: Date | null }
  | { readonly state: 'keeping' }
  | { readonly state: 'not-kept'; readonly why: 'no-room' | 'no-store' };

/** What else was left for a sheet: `taken` is called once it is kept as part of this one. */
export type Left<Draft> = { readonly draft: Draft; readonly taken: () => Promise<void> };

export type KeptDraft<Draft> = {
  readonly draft: Draft;
  readonly keeping: Keeping;
  /** when the sheet found on this device was last typed in; null for a fresh one */
  readonly restoredFrom: Date | null;
  readonly change: (make: (draft: Draft) => Draft) => void;
  readonly startAfresh: () => void;
};

const whyNot = (error: unknown): Keeping => ({
  state: 'not-kept',
  why:
    error instanceof DOMException && error.name === 'QuotaExceededError' ? 'no-room' : 'no-store',
});

/**
 * A sheet that is written to this device at every keystroke, and found again after a reload.
 * @param fresh makes an empty sheet
 * @param find what else may have been left for this sheet; null when nothing was
 */
export function useKeptDraft<Draft>(
  { sheetKey, title, path }: { sheetKey: string; title: string; path: string },
  fresh: () => Draft,
  find: () => Promise<Left<Draft> | null>,
): KeptDraft<Draft> {
  const [draft, setDraft] = useState(fresh);
  const [keeping, setKeeping] = useState<Keeping>({ state: 'opening' });
  const [restoredFrom, setRestoredFrom] = useState<Date | null>(null);
  const latest = useRef(draft);
  const isTyped = useRef(false);

  useEffect(() => {
    const open = async () => {
      const kept = await keptSheet(sheetKey);
      const left = kept === undefined ? await find() : null;
      const found = (kept?.sheet as Draft | undefined) ?? left?.draft ?? null;
      const at = kept === undefined ? null : new Date(kept.savedAt);
      if (found !== null && !isTyped.current) {
        latest.current = { ...fresh(), ...found };
        setDraft(latest.current);
        setRestoredFrom(at);
        if (left !== null) {
          // on the disk in its new form first: the old one goes only then
          const savedAt = new Date().toISOString();
          await keepSheet({ sheetKey, title, path, savedAt, sheet: latest.current });
          await left.taken();
        }
      }
      setKeeping({ state: 'kept', at });
    };
    open().catch((error: unknown) => setKeeping(whyNot(error)));
  }, [sheetKey]);

  const change = useCallback(
    (make: (draft: Draft) => Draft) => {
      isTyped.current = true;
      latest.current = make(latest.current);
      const sheet = latest.current;
      setDraft(sheet);
      setKeeping({ state: 'keeping' });
      const savedAt = new Date();
      keepSheet({ sheetKey, title, path, savedAt: savedAt.toISOString(), sheet })
        .then(() => {
          if (latest.current === sheet) setKeeping({ state: 'kept', at: savedAt });
        })
        .catch((error: unknown) => setKeeping(whyNot(error)));
      void askToKeepStore();
      sayInUse();
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
