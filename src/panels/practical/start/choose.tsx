import { useState } from 'preact/hooks';
import { isWork } from '../../../competence/sheet/index.ts';
import { here } from '../../../words/spoken.ts';
import type { Kit } from '../../signing/index.ts';
import { contentLang, say, sayDay } from '../say.ts';
import { type Chosen, sayWork } from '../sheet/place.ts';

type Props = { readonly kit: Kit; readonly chosen: Chosen; readonly problem: string | null };

/** What was signed before for this person, bench and work: newest first, a line to a unit. */
function Before({ kit, chosen }: Omit<Props, 'problem'>) {
  const titles = new Map(kit.units.map(({ id, title }) => [id, title]));
  const names = new Map(kit.people.map(({ person, name }) => [person, name]));
  const lines = kit.signed
    .filter(
      ({ person, bench, work }) =>
        person === chosen.person && bench === chosen.bench && work === chosen.work,
    )
    .sort((a, b) => (a.observedAt < b.observedAt ? 1 : -1))
    .slice(0, 12);
  if (lines.length === 0) return <p class="quiet">{say('before.none')}</p>;
  return (
    <>
      <h3>{say('before')}</h3>
      <ul>
        {lines.map(({ unit, observedAt, decision, trainer }) => (
          <li key={`${unit}${observedAt}`}>
            <span lang={contentLang()}>{titles.get(unit) ?? unit}</span>:{' '}
            {say(decision === 'signed-off' ? 'before.signed-off' : 'before.not-yet', {
              day: sayDay(observedAt),
              trainer: names.get(trainer) ?? say('somebody'),
            })}
          </li>
        ))}
      </ul>
    </>
  );
}

/** The person, the bench and the kind of work of a practical. */
export function Choose({ kit, chosen: start, problem: given }: Props) {
  const [chosen, setChosen] = useState(start);
  const [problem, setProblem] = useState(given);
  const people = kit.people.filter(
    ({ person, role }) => person !== kit.trainer.person && role !== 'employer',
  );
  const bench = kit.benches.find(({ id }) => id === chosen.bench);
  const works = bench?.work ?? [];
  if (kit.benches.length === 0) return <p>{say('no-benches')}</p>;
  const put = (part: Partial<Chosen>) => {
    setProblem(null);
    setChosen((before) => ({ ...before, ...part }));
  };
  const open = (event: Event) => {
    event.preventDefault();
    const missing = (['person', 'bench', 'work'] as const).find((field) => chosen[field] === '');
    if (missing !== undefined) {
      setProblem(say(`choose.${missing}`));
      document.getElementById(missing)?.focus();
      return;
    }
    const query = new URLSearchParams(chosen);
    window.location.assign(`${here('/practical/sheet')}?${query}`);
  };
  return (
    <form onSubmit={open} noValidate>
      {problem !== null && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
      <div class="columns">
        <div class="field">
          <label for="person">{say('person')}</label>
          <select
            id="person"
            value={chosen.person}
            onChange={(event) => put({ person: event.currentTarget.value })}
          >
            <option value="">{say('choose.one')}</option>
            {people.map(({ person, name }) => (
              <option value={person} key={person}>
                {name}
              </option>
            ))}
          </select>
        </div>
        <div class="field">
          <label for="bench">{say('bench')}</label>
          <select
            id="bench"
            value={chosen.bench}
            onChange={(event) => {
              const id = event.currentTarget.value;
              const next = kit.benches.find((one) => one.id === id);
              const keeps = isWork(chosen.work) && next?.work.includes(chosen.work) === true;
              put({ bench: id, work: keeps ? chosen.work : '' });
            }}
          >
            <option value="">{say('choose.one')}</option>
            {kit.benches.map(({ id, title, asset }) => (
              <option value={id} key={id}>
                {title}, {asset}
              </option>
            ))}
          </select>
        </div>
        <div class="field">
          <label for="work">{say('work')}</label>
          <select
            id="work"
            value={chosen.work}
            onChange={(event) => put({ work: event.currentTarget.value })}
          >
            <option value="">
              {say(bench === undefined ? 'choose.bench-first' : 'choose.one')}
            </option>
            {works.map((work) => (
              <option value={work} key={work}>
                {sayWork(work)}
              </option>
            ))}
          </select>
        </div>
      </div>
      {chosen.person !== '' && chosen.bench !== '' && chosen.work !== '' && (
        <Before kit={kit} chosen={chosen} />
      )}
      <button class="button button--main button--glove" type="submit">
        {say('open-sheet')}
      </button>
    </form>
  );
}
