import type { Instrument, InstrumentId } from '../../bench/index.ts';
import type { UnitSetting } from '../../competence/index.ts';
import {
  type Draft,
  type DraftContext,
  problemWithReading,
  readingOf,
  readLength,
  type Settled,
  type TypedField,
} from '../../competence/sheet/index.ts';
import { formatLength, type LengthUnit } from '../../geometry/index.ts';
import { LengthField } from './length-field.tsx';
import { VerdictWord } from './mark.tsx';
import { contentLang, figures, say, sayAsks, sayProblem } from './say.ts';
import { nameLimit, type Verdicts } from './sheet/judge-unit.ts';

type Props = {
  readonly draft: Draft;
  readonly context: DraftContext;
  readonly verdicts: Verdicts;
  readonly shownIn: LengthUnit;
  readonly change: (part: Partial<Draft>) => void;
};

const uncertaintyOf = ({ uncertainty }: Instrument, unit: LengthUnit): string =>
  figures(unit === 'mm' ? `±${uncertainty} mm` : `±${(uncertainty / 25.4).toFixed(3)} in`);

/** What the site reads in the field: the other unit for an inch, so that a slip shows at once. */
function echo(typed: TypedField): string | null {
  const read = readLength(typed.text, typed.unit);
  if (!read.ok || read.length.unit === 'mm') return null;
  return figures(`= ${formatLength(read.length.mm, 'mm', 2)}`);
}

function Judged({ settled }: { settled: Settled }) {
  const { signed, asks, critical, note } = settled;
  return (
    <li>
      <VerdictWord verdict={signed.verdict} critical={critical} />
      <span>
        {nameLimit(settled)}: {asks === '' ? say('no-figure') : sayAsks(asks)}.
        {signed.verdict === 'too-close' && ` ${say('too-close')}`}
      </span>
      <small lang={contentLang()}>
        {signed.limit}, {signed.source}
        {note !== null && `. ${note}`}
      </small>
    </li>
  );
}

/** One length to measure: figure, unit, instrument, and the verdict with its source. */
function ReadingLine(props: Props & { readonly setting: UnitSetting }) {
  const { setting, draft, context, verdicts, shownIn, change } = props;
  const typed = readingOf(draft, setting, shownIn);
  const problem = problemWithReading(draft, setting, context.instruments);
  const id = `reading.${setting.id}`;
  const put = (part: Partial<TypedField & { instrument: InstrumentId }>) =>
    change({ readings: { ...draft.readings, [setting.id]: { ...typed, ...part } } });
  const found = verdicts.settled.filter((one) => one.setting === setting.id);
  const inMm = echo(typed);
  return (
    <li class="measure">
      <div class="measure-ask">
        <strong lang={contentLang()}>{setting.ask}</strong>
        {!setting.needed && <span class="quiet"> {say('if-measured')}</span>}
        {setting.how !== undefined && (
          <p class="hint" id={`${id}.how`} lang={contentLang()}>
            {setting.how}
          </p>
        )}
      </div>
      <div class="measure-entry">
        <LengthField
          id={id}
          label={setting.ask}
          typed={typed}
          change={put}
          invalid={problem !== null}
          sign={setting.range[0] < 0 ? 'may-be-negative' : 'positive'}
          describedBy={`${id}.verdict`}
        />
        <label class="measure-with">
          <span class="quiet-label">{say('with')}</span>
          <select
            class="entry"
            aria-label={say('with-for', { ask: setting.ask })}
            value={typed.instrument}
            onChange={(event) => put({ instrument: event.currentTarget.value as InstrumentId })}
          >
            {setting.instruments.map((one) => (
              <option value={one} key={one}>
                {say(`instrument.${one}`)} {uncertaintyOf(context.instruments[one], typed.unit)}
              </option>
            ))}
          </select>
        </label>
        {inMm !== null && <span class="length">{inMm}</span>}
      </div>
      <div id={`${id}.verdict`} class="measure-verdict" aria-live="polite">
        {problem !== null && <span class="problem">{sayProblem(problem.told)}</span>}
        {problem === null && found.length > 0 && (
          <ul>
            {found.map((one) => (
              <Judged settled={one} key={one.signed.limit} />
            ))}
          </ul>
        )}
        {problem === null && found.length === 0 && typed.text.trim() !== '' && (
          <span class="quiet">{say(`verdict.${verdicts.state}`)}</span>
        )}
      </div>
    </li>
  );
}

export const Readings = (props: Props) => (
  <ul class="measures">
    {props.context.unit.settings.map((setting) => (
      <ReadingLine {...props} setting={setting} key={setting.id} />
    ))}
  </ul>
);
