import { useState } from 'preact/hooks';
import type { Unit } from '../../../competence/index.ts';
import {
  changeUnit,
  type Draft,
  draftOfUnit,
  isTouched,
  leaveOut,
  type PracticalDraft,
  stoppedIn,
} from '../../../competence/sheet/index.ts';
import type { LengthUnit } from '../../../geometry/index.ts';
import { Criteria } from '../criteria.tsx';
import { Readings } from '../readings.tsx';
import { contentLang, say, sayLimitSet } from '../say.ts';
import { contextOf } from './check-practical.ts';
import { judgeUnit } from './judge-unit.ts';
import { Photos } from './photos.tsx';
import type { Place } from './place.ts';

type Props = {
  readonly unit: Unit;
  readonly draft: PracticalDraft;
  readonly place: Place;
  readonly today: string;
  readonly shownIn: LengthUnit;
  readonly change: (make: (draft: PracticalDraft) => PracticalDraft) => void;
};

/** Takes a unit off the sheet with all that was entered for it, so it asks first: gloves slip. */
function LeaveOut({ leave }: { readonly leave: () => void }) {
  const [isAsking, setAsking] = useState(false);
  if (!isAsking) {
    return (
      <p>
        <button class="button button--quiet" type="button" onClick={() => setAsking(true)}>
          {say('leave-out')}
        </button>
      </p>
    );
  }
  return (
    <p class="actions">
      <span>{say('leave-out.ask')}</span>
      <button class="button" type="button" onClick={leave}>
        {say('leave-out.do')}
      </button>
      <button class="button button--quiet" type="button" onClick={() => setAsking(false)}>
        {say('throw.keep')}
      </button>
    </p>
  );
}

/** One unit: what is watched and what is measured. */
export function UnitPart({ unit, draft, place, today, shownIn, change }: Props) {
  const own = draftOfUnit(draft, unit.id);
  const put = (part: Partial<Draft>) => change((now) => changeUnit(now, unit.id, part));
  const putPhotos = (photos: PracticalDraft['photos']) => change((now) => ({ ...now, photos }));
  const stopped = stoppedIn(draft);
  return (
    <section aria-labelledby="part-unit">
      <h2 id="part-unit" tabIndex={-1}>
        <span lang={contentLang()}>
          {unit.number}. {unit.title}
        </span>
      </h2>
      <p lang={contentLang()}>{unit.about}</p>
      {stopped !== null && stopped !== unit.id && <p>{say('stopped.elsewhere')}</p>}
      <h3>{say('watch')}</h3>
      <Criteria unit={unit} draft={own} change={put} photos={draft.photos} putPhotos={putPhotos} />
      {unit.settings.length > 0 && (
        <>
          <h3>{say('measure')}</h3>
          <p>{say('limits', { title: sayLimitSet(place.set) })}</p>
          <Readings
            draft={own}
            context={contextOf(unit, place, today)}
            verdicts={judgeUnit(own, unit, place)}
            shownIn={shownIn}
            change={put}
          />
        </>
      )}
      <h3>{say('photo.machine')}</h3>
      <p class="hint">{say('photo.hint')}</p>
      <Photos
        unit={unit.id}
        criterion={null}
        of={place.bench.title}
        photos={draft.photos}
        put={putPhotos}
      />
      {isTouched(draft, unit.id) && (
        <LeaveOut leave={() => change((now) => leaveOut(now, unit.id))} />
      )}
    </section>
  );
}
