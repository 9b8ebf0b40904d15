import { useEffect, useState } from 'preact/hooks';
import { type KeptSheet, leftHere } from '../../signing/index.ts';
import { say, sayDay } from '../say.ts';

/** Sheets that were begun on this device and not signed yet. */
export function LeftHere({ trainer }: { readonly trainer: string }) {
  const [sheets, setSheets] = useState<readonly KeptSheet[]>([]);
  useEffect(() => {
    leftHere(trainer)
      .then((left) => setSheets(left.sheets))
      .catch(() => setSheets([]));
  }, [trainer]);
  if (sheets.length === 0) return null;
  return (
    <section aria-labelledby="left">
      <h2 id="left">{say('left')}</h2>
      <ul>
        {sheets.map(({ sheetKey, path, title, savedAt }) => (
          <li key={sheetKey}>
            <a href={path}>{title}</a>: {say('left.open', { day: sayDay(savedAt) })}.
          </li>
        ))}
      </ul>
    </section>
  );
}
