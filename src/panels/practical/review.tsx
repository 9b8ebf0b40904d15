import { nameWork, sayDay, sayMeasured, saySmall } from '../../competence/sheet/index.ts';
import type { Statement } from '../../records/index.ts';
import { VerdictWord } from './mark.tsx';
import { ScrollBox } from './scroll-box.tsx';

const RESULT = { yes: 'Yes', no: 'No', 'not-seen': 'Not seen' } as const;

type Props = {
  readonly statement: Statement;
  readonly names: { readonly who: string; readonly trainer: string };
  readonly benchTitle: string;
  readonly limitsTitle: string;
  /** what each limit is about, in words, by its id */
  readonly titles: Readonly<Record<string, string>>;
  readonly hash: string;
};

/** Everything the signer signs, read from the statement itself and from nothing else. */
export function Review({ statement, names, benchTitle, limitsTitle, titles, hash }: Props) {
  const { bench, blade, unit, limits } = statement;
  const isOff = statement.decision === 'signed-off';
  return (
    <div class="review">
      <p class="review-decision">
        <strong>{isOff ? 'Signed off' : 'Not yet'}</strong>
        {isOff &&
          ` from ${sayDay(statement.validFrom ?? '')} until ${sayDay(statement.validUntil ?? '')}`}
      </p>
      <dl class="facts">
        <dt>Person watched</dt>
        <dd>{names.who}</dd>
        <dt>Signed by</dt>
        <dd>{names.trainer}, trainer</dd>
        <dt>Unit</dt>
        <dd>
          {unit.title} ({unit.id}, version {unit.version})
        </dd>
        <dt>Bench</dt>
        <dd>
          {benchTitle}, {bench.asset}: {bench.class}, guard {bench.guardKind}
        </dd>
        <dt>Work</dt>
        <dd>{nameWork(statement.work)}</dd>
        <dt>Stock</dt>
        <dd>{statement.material}</dd>
        <dt>Blade</dt>
        <dd>
          {blade.diameter} mm, kerf {blade.kerf} mm, plate {blade.plate} mm, {blade.teeth} teeth
        </dd>
        <dt>Day and place</dt>
        <dd>
          {sayDay(statement.observedAt)}, {statement.place}
        </dd>
        <dt>Limits</dt>
        <dd>
          {limitsTitle} ({limits.set}, version {limits.version})
        </dd>
        <dt>Conditions</dt>
        <dd>{statement.conditions.length === 0 ? 'none' : statement.conditions.join('; ')}</dd>
      </dl>
      <ScrollBox label="What was seen">
        <table>
          <caption>What was seen</caption>
          <thead>
            <tr>
              <th scope="col">Criterion</th>
              <th scope="col">Seen</th>
            </tr>
          </thead>
          <tbody>
            {statement.criteria.map((one) => (
              <tr key={one.id}>
                <td>
                  {one.text}
                  {one.note !== undefined && <span class="quiet">Note: {one.note}</span>}
                </td>
                <td>
                  <strong>{RESULT[one.result]}</strong>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
      {statement.settings.length > 0 && (
        <ScrollBox label="What was measured">
          <table>
            <caption>What was measured</caption>
            <thead>
              <tr>
                <th scope="col">Measure</th>
                <th scope="col">Value</th>
                <th scope="col">With</th>
                <th scope="col">Verdict, limit and source</th>
              </tr>
            </thead>
            <tbody>
              {statement.settings.map((one) => (
                <tr key={one.limit}>
                  <td>
                    {titles[one.limit] ?? one.measure}
                    <span class="quiet">{one.measure}</span>
                  </td>
                  <td class="number">{sayMeasured(one.value, one.unit)}</td>
                  <td>
                    {one.instrument}, ±{saySmall(one.uncertainty, one.unit)}
                  </td>
                  <td>
                    <VerdictWord verdict={one.verdict} critical={false} />
                    <span class="quiet">
                      {one.limit}: {one.source}
                      {one.margin !== null && `. Margin ${saySmall(one.margin, one.unit)}`}
                    </span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </ScrollBox>
      )}
      <h3>What your signature means</h3>
      <blockquote class="meaning">{statement.meaning}</blockquote>
      <p class="quiet">
        Record {statement.signoff}. SHA-256 of what is signed: <code>{hash}</code>
      </p>
    </div>
  );
}
