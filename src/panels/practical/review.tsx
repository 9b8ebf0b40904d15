import type { Instrument } from '../../bench/index.ts';
import { sayMeasured, saySmall } from '../../competence/sheet/index.ts';
import type { Statement } from '../../records/index.ts';
import { VerdictWord } from './mark.tsx';
import { contentLang, figures, sayDay, sayStatement } from './say.ts';
import { ScrollBox } from './scroll-box.tsx';

/** The record holds the English name of the instrument. */
function nameInstrument(title: string, instruments: Props['instruments']): string {
  const known = Object.values(instruments).find((one) => one.title === title);
  return known === undefined ? title : sayStatement(`instrument.${known.id}`);
}

type Props = {
  readonly statement: Statement;
  readonly names: { readonly who: string; readonly trainer: string };
  readonly benchTitle: string;
  readonly workName: string;
  readonly instruments: Readonly<Record<Instrument['id'], Instrument>>;
  readonly limitsTitle: string;
  /** what each limit is about, in words, by its id */
  readonly titles: Readonly<Record<string, string>>;
  readonly hash: string;
};

/** Everything the signer signs, read from the statement itself and from nothing else. */
export function Review(props: Props) {
  const { statement, names, instruments, benchTitle, workName, limitsTitle, titles, hash } = props;
  const { bench, blade, unit, limits } = statement;
  const days = {
    from: sayDay(statement.validFrom ?? ''),
    until: sayDay(statement.validUntil ?? ''),
  };
  const machine = {
    name: `${benchTitle}, ${bench.asset}`,
    class: sayStatement.maybe(`class.${bench.class}`) ?? bench.class,
    guard: sayStatement(`guard.${bench.guardKind}`),
  };
  const isOff = statement.decision === 'signed-off';
  return (
    <div class="review">
      <p class="review-decision">
        <strong>{sayStatement(isOff ? 'signed-off' : 'not-yet')}</strong>
        {isOff && ` ${sayStatement('signed-off.days', days)}`}
      </p>
      <dl class="facts">
        <dt>{sayStatement('person-watched')}</dt>
        <dd>{names.who}</dd>
        <dt>{sayStatement('signed-by')}</dt>
        <dd>{sayStatement('trainer', { name: names.trainer })}</dd>
        <dt>{sayStatement('unit')}</dt>
        <dd>
          <span lang={contentLang()}>{unit.title}</span>{' '}
          {sayStatement('unit.is', { id: unit.id, version: unit.version })}
        </dd>
        <dt>{sayStatement('bench')}</dt>
        <dd>{sayStatement('bench.is', machine)}</dd>
        <dt>{sayStatement('work')}</dt>
        <dd>{workName}</dd>
        <dt>{sayStatement('stock')}</dt>
        <dd>{statement.material}</dd>
        <dt>{sayStatement('blade')}</dt>
        <dd>{figures(sayStatement('blade.is', blade))}</dd>
        <dt>{sayStatement('day-and-place')}</dt>
        <dd>
          {sayDay(statement.observedAt)}, {statement.place}
        </dd>
        <dt>{sayStatement('limits')}</dt>
        <dd>{sayStatement('limits.titled', { title: limitsTitle, ...limits })}</dd>
        <dt>{sayStatement('conditions')}</dt>
        <dd>
          {statement.conditions.length === 0
            ? sayStatement('conditions.none')
            : statement.conditions.join('; ')}
        </dd>
      </dl>
      <ScrollBox label={sayStatement('seen')}>
        <table>
          <caption>{sayStatement('seen')}</caption>
          <thead>
            <tr>
              <th scope="col">{sayStatement('col.criterion')}</th>
              <th scope="col">{sayStatement('col.seen')}</th>
            </tr>
          </thead>
          <tbody>
            {statement.criteria.map((one) => (
              <tr key={one.id}>
                <td>
                  <span lang={contentLang()}>{one.text}</span>
                  {one.note !== undefined && (
                    <span class="quiet">{sayStatement('note', { note: one.note })}</span>
                  )}
                </td>
                <td>
                  <strong>{sayStatement(`result.${one.result}`)}</strong>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {statement.settings.length > 0 && (
        <ScrollBox label={sayStatement('measured')}>
          <table>
            <caption>{sayStatement('measured')}</caption>
            <thead>
              <tr>
                <th scope="col">{sayStatement('col.measure')}</th>
                <th scope="col">{sayStatement('col.value')}</th>
                <th scope="col">{sayStatement('col.with.short')}</th>
                <th scope="col">{sayStatement('col.verdict.long')}</th>
              </tr>
            </thead>
            <tbody>
              {statement.settings.map((one) => (
                <tr key={one.limit}>
                  <td>
                    {titles[one.limit] ?? one.measure}
                    <span class="quiet">{one.measure}</span>
                  </td>
                  <td class="number">{figures(sayMeasured(one.value, one.unit))}</td>
                  <td>
                    {nameInstrument(one.instrument, instruments)}, ±
                    {figures(saySmall(one.uncertainty, one.unit))}
                  </td>
                  <td>
                    <VerdictWord verdict={one.verdict} critical={false} />
                    <span class="quiet">
                      <span lang={contentLang()}>
                        {one.limit}: {one.source}
                      </span>
                      {one.margin !== null &&
                        `. ${figures(sayStatement('margin', { margin: saySmall(one.margin, one.unit) }))}`}
                    </span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      )}
      <h3>{sayStatement('meaning')}</h3>
      <blockquote class="meaning" lang={contentLang()}>
        {statement.meaning}
      </blockquote>
      <p class="quiet">
        {sayStatement('hash', { signoff: statement.signoff })} <code>{hash}</code>
      </p>
    </div>
  );
}
