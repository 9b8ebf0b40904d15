import { isMeasureId, MEASURES, MEASURING_POINTS } from '../../../bench/index.ts';
import { englishOnly, here } from '../../../words/spoken.ts';
import type { Attempt } from '../work/attempt.ts';
import type { Desk, Paper } from '../work/desk.ts';
import { nameMeasure, namePlace, nameSets, nameTask } from '../work/names.ts';
import { isPart } from '../work/parts.ts';
import { say, sayIf, sayLength } from '../work/words.ts';
import { WithResults } from './later.tsx';
import { StockSketch } from './stock-sketch.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** The job card: what is to be cut, the stock drawn and in figures, and what to do. */
export function JobCard({ attempt, desk }: Props) {
  const started = attempt.started.value;
  const bench = attempt.bench.value;
  if (started === null || bench === null) return null;
  const { task } = started;
  const { job } = bench;
  // a task of a form is told in the panel's own words
  const told = task.sitting ? { ...task, lang: undefined } : nameTask(task);
  return (
    <div class="bench-job">
      <h2 lang={told.lang}>{told.title}</h2>
      {desk.kinds.value !== '' && <p class="quiet">{desk.kinds.value}</p>}
      <p lang={told.lang}>{told.brief}</p>
      {attempt.verdict.value !== null && (
        <WithResults>{({ VerdictSection }) => <VerdictSection attempt={attempt} />}</WithResults>
      )}
      <figure class="bench-stock">
        <StockSketch job={job} />
        <figcaption class="unseen">{say('job.sketch')}</figcaption>
      </figure>
      <dl class="facts">
        <dt>{say('job.cut')}</dt>
        <dd>{sayIf(`cut.${job.cut}`, job.cut)}</dd>
        <dt>{say('job.stock')}</dt>
        <dd lang={englishOnly()}>{job.stock.kind}</dd>
        <dt>{say('job.size')}</dt>
        <dd>
          {say('job.size-of', {
            length: { mm: job.stock.length },
            width: { mm: job.stock.width },
            thickness: { mm: job.stock.thickness },
          })}
        </dd>
        <dt>{say('job.width')}</dt>
        <dd>{sayLength({ mm: job.widthOfCut })}</dd>
      </dl>
      <h3>{say('job.todo')}</h3>
      <ol class="bench-todo">
        {task.predict && (
          <li>
            <Turn desk={desk} paper="beforehand" text={say('todo.predict')} />
          </li>
        )}
        <li>
          <GoTo desk={desk} part="controls" text={say('todo.isolate')} />
        </li>
        {task.faults && <li>{say('todo.look')}</li>}
        {task.faults && <li>{say('todo.write')}</li>}
        {task.choose && (
          <li>
            <Turn desk={desk} paper="rack" text={say('todo.choose')} />
          </li>
        )}
        {task.settings.length > 0 && (
          <li>
            {say('todo.set')}
            <ul>
              {task.settings.map((id) => (
                <li key={id}>
                  <GoTo
                    desk={desk}
                    part={isMeasureId(id) ? MEASURES[id].part : ''}
                    text={nameMeasure(id)}
                  />
                </li>
              ))}
            </ul>
          </li>
        )}
        {task.readings && (
          <li>
            {say('todo.read')}
            <ul>
              {task.readings.map((at) => (
                <li key={at}>
                  <GoTo desk={desk} part={MEASURING_POINTS[at].part} text={namePlace(at)} />
                </li>
              ))}
            </ul>
          </li>
        )}
        {task.settings.length > 0 && <li>{say('todo.lock')}</li>}
        {task.cut && (
          <li>
            <Turn desk={desk} paper="cut" text={say('todo.cut')} />
          </li>
        )}
        {!task.sitting && <li>{say('todo.hand-in')}</li>}
      </ol>
      <p class="hint">
        {say('job.limits', { sets: nameSets(task).join(', ') })}{' '}
        <a href={here('/limits')}>{say('job.read')}</a>
      </p>
    </div>
  );
}

type TurnProps = { readonly desk: Desk; readonly paper: Paper; readonly text: string };

function Turn({ desk, paper, text }: TurnProps) {
  return (
    <button type="button" class="bench-link" onClick={() => desk.turnTo(paper)}>
      {text}
    </button>
  );
}

type GoToProps = { readonly desk: Desk; readonly part: string; readonly text: string };

function GoTo({ desk, part, text }: GoToProps) {
  if (!isPart(part)) return <>{text}</>;
  return (
    <button type="button" class="bench-link" onClick={() => desk.open(part)}>
      {text}
    </button>
  );
}
