import { useEffect, useRef, useState } from 'preact/hooks';
import {
  confirmAgain,
  dropRefused,
  exportUnsent,
  forgetMissing,
  importUnsent,
  type RefusedRecord,
  refusedOf,
  reopenSheets,
  sendNow,
  tryAgain,
  type Unsent,
  unsentOf,
  watchUnsent,
} from '../../signing/index.ts';
import { say, sayDay } from '../say.ts';
import { RefusedList } from './refused-list.tsx';

type Props = { readonly trainer: { readonly person: string } };

/** What was signed here and is not with the site: how much, why, and every way to get it there. */
export function Waiting({ trainer: { person } }: Props) {
  const [unsent, setUnsent] = useState<readonly Unsent[]>([]);
  const [refused, setRefused] = useState<readonly RefusedRecord[]>([]);
  const [line, setLine] = useState('');
  const [busy, setBusy] = useState(false);
  const [asksPassword, setAsksPassword] = useState(false);
  const [missing, setMissing] = useState(0);
  const password = useRef<HTMLInputElement>(null);

  const look = () => {
    unsentOf(person)
      .then(setUnsent)
      .catch(() => setUnsent([]));
    refusedOf(person)
      .then(setRefused)
      .catch(() => setRefused([]));
  };
  useEffect(() => {
    look();
    return watchUnsent((waiting) => {
      setMissing(waiting.missing);
      look();
    });
  }, [person]);

  const tell = async (work: () => Promise<string>) => {
    setBusy(true);
    const message = await work().catch((error: unknown) =>
      error instanceof Error ? error.message : String(error),
    );
    setBusy(false);
    setLine(message);
    look();
  };
  const send = () =>
    tell(async () => {
      const { held, left, message } = await sendNow();
      setAsksPassword(held === 'password');
      return left === 0 ? say('waiting.sent') : message;
    });
  const sendWithPassword = () =>
    tell(async () => {
      const reply = await confirmAgain({ person, password: password.current?.value ?? '' });
      if (!reply.ok) return reply.message;
      setAsksPassword(false);
      return reply.value.left === 0 ? say('waiting.sent') : reply.value.message;
    });
  const saveFile = () =>
    tell(async () => {
      const url = URL.createObjectURL(await exportUnsent());
      const link = Object.assign(document.createElement('a'), {
        href: url,
        download: `signed-${new Date().toISOString().slice(0, 10)}.json`,
      });
      link.click();
      setTimeout(() => URL.revokeObjectURL(url), 60_000);
      return say('waiting.saved');
    });
  const bringIn = (file: File | undefined) =>
    file === undefined
      ? undefined
      : tell(async () => {
          const reply = await importUnsent(file);
          return reply.ok ? say.count('waiting.brought', reply.value) : reply.message;
        });
  const again = (signoff: string) =>
    tell(async () => {
      await tryAgain(signoff);
      return (await sendNow()).message;
    });

  /** The sheet as it was typed, to mend and sign afresh; the record that was not taken stays. */
  const openAgain = ({ signoff, record }: RefusedRecord) =>
    tell(async () => {
      await reopenSheets(signoff);
      window.location.assign(record.path);
      return '';
    });
  const throwAway = (signoff: string) =>
    tell(async () => {
      await dropRefused(signoff);
      return say('refused.thrown');
    });

  const hasAny = unsent.length > 0 || refused.length > 0;
  return (
    <section aria-labelledby="waiting" class="waiting">
      <h2 id="waiting">{say('waiting')}</h2>
      <p>
        <strong data-unsent-count>{say.count('waiting.count', unsent.length)}</strong>{' '}
        {unsent.length > 0 && say('waiting.say')}
      </p>
      {unsent.length > 0 && (
        <ul>
          {unsent.map(({ signoff, title, signedAt }) => (
            <li key={signoff}>
              {title}: {say('waiting.signed', { day: sayDay(signedAt) })}
            </li>
          ))}
        </ul>
      )}
      {missing > 0 && (
        <p>
          <strong>{say.count('missing', missing)}</strong>{' '}
          <button class="button button--quiet" type="button" onClick={() => void forgetMissing()}>
            {say('missing.read')}
          </button>
        </p>
      )}
      <RefusedList
        refused={refused}
        busy={busy}
        again={(signoff) => void again(signoff)}
        openAgain={(one) => void openAgain(one)}
        throwAway={(signoff) => void throwAway(signoff)}
      />
      {asksPassword && (
        <div class="field">
          <label for="again-password">{say('password')}</label>
          <input
            id="again-password"
            ref={password}
            type="password"
            autocomplete="current-password"
          />
          <button
            class="button"
            type="button"
            disabled={busy}
            onClick={() => void sendWithPassword()}
          >
            {say('waiting.send')}
          </button>
        </div>
      )}
      <p role="status">{line}</p>
      <p class="actions">
        {unsent.length > 0 && !asksPassword && (
          <button
            class="button button--main button--glove"
            type="button"
            disabled={busy}
            onClick={() => void send()}
          >
            {say(busy ? 'waiting.sending' : 'waiting.send')}
          </button>
        )}
        {hasAny && (
          <button class="button" type="button" disabled={busy} onClick={() => void saveFile()}>
            {say('waiting.save')}
          </button>
        )}
        <label class="button button--quiet photo-take">
          <input
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              const field = event.currentTarget;
              void bringIn(field.files?.[0])?.then(() => {
                field.value = '';
              });
            }}
          />
          <span>{say('waiting.bring')}</span>
        </label>
      </p>
    </section>
  );
}
