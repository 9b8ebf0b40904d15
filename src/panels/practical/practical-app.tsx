import { useEffect, useMemo, useState } from 'preact/hooks';
import { here } from '../../words/spoken.ts';
import { fetchKit, type Kit, keepSending, keptKit, watchUnsent } from '../signing/index.ts';
import { say } from './say.ts';
import { LogNotice } from './sheet/log-notice.tsx';
import { OutNotice } from './sheet/out-notice.tsx';
import { type Chosen, findPlace, titleOf } from './sheet/place.ts';
import { Practical } from './sheet/practical.tsx';
import { Start } from './start/start.tsx';

/** Whether there is a kit on this device, and why none came when there is not. */
type Got =
  | { readonly state: 'opening' }
  | { readonly state: 'kit'; readonly kit: Kit }
  | { readonly state: 'none'; readonly status: number; readonly message: string };

function chosenOf(search: string): Chosen {
  const query = new URLSearchParams(search);
  const of = (name: string) => query.get(name) ?? '';
  return { person: of('person'), bench: of('bench'), work: of('work') };
}

const isWhole = ({ person, bench, work }: Chosen): boolean =>
  person !== '' && bench !== '' && work !== '';

/** The kit kept here at once, and the newest from the site behind it. */
function useKit(): Got {
  const [got, setGot] = useState<Got>({ state: 'opening' });
  useEffect(() => {
    const open = async () => {
      const kept = await keptKit().catch(() => null);
      if (kept !== null) setGot({ state: 'kit', kit: kept });
      const fresh = await fetchKit();
      if (fresh.ok) setGot({ state: 'kit', kit: fresh.value });
      else if (kept === null || fresh.status === 403) {
        setGot({ state: 'none', status: fresh.status, message: fresh.message });
      }
    };
    void open();
    keepSending();
    // what has just come to the site belongs to what was signed before
    let waiting = 0;
    return watchUnsent(({ unsent }) => {
      const hasCome = unsent < waiting;
      waiting = unsent;
      if (hasCome)
        void fetchKit().then((fresh) => fresh.ok && setGot({ state: 'kit', kit: fresh.value }));
    });
  }, []);
  return got;
}

/** The practical sheet: what opens from the home screen, network or none. */
export function PracticalApp() {
  const got = useKit();
  const chosen = useMemo(() => chosenOf(window.location.search), []);
  if (got.state === 'opening') return <p role="status">{say('opening')}</p>;
  if (got.state === 'none') {
    const isSignedOut = got.status === 401;
    const back = `${window.location.pathname}${window.location.search}`;
    return (
      <>
        <h1>{say('title')}</h1>
        <p role="alert">{isSignedOut ? say('signed-out') : `${got.message} ${say('no-kit')}`}</p>
        {isSignedOut && (
          <p class="actions">
            <a
              class="button button--main"
              href={`${here('/sign-in')}?next=${encodeURIComponent(back)}`}
            >
              {say('sign-in')}
            </a>
          </p>
        )}
      </>
    );
  }
  const found = isWhole(chosen) ? findPlace(got.kit, chosen) : null;
  if (found?.ok !== true) {
    return (
      <>
        <LogNotice />
        <Start kit={got.kit} chosen={chosen} problem={found === null ? null : found.why} />
      </>
    );
  }
  const { place } = found;
  return (
    <>
      <div class="page-head">
        <h1>{titleOf(place)}</h1>
        <p>
          {say('watched-by', { trainer: got.kit.trainer.name, title: place.bench.title })}{' '}
          <a href={here('/practical/sheet')}>{say('to-start')}</a>
        </p>
      </div>
      <LogNotice />
      <OutNotice {...place} />
      <Practical place={place} />
    </>
  );
}
