import type { Attempt } from '../work/attempt.ts';
import type { Desk, Paper } from '../work/desk.ts';
import { isNarrow } from '../work/fit-screen.ts';
import { say } from '../work/words.ts';
import { Foot } from './foot.tsx';
import { JobCard } from './job-card.tsx';
import { WithBeforehand, WithCut, WithRack, WithResults, WithSheets } from './later.tsx';

type Props = { readonly attempt: Attempt; readonly desk: Desk };

/** The papers beside the bench; on a phone they fold down to their tabs. */
export function Papers({ attempt, desk }: Props) {
  const papers = papersOf(attempt, desk);
  const open = papers.includes(desk.paper.value) ? desk.paper.value : (papers[0] ?? 'job');
  const isFolded = desk.isFolded.value;

  function move(event: KeyboardEvent): void {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const next = papers[(papers.indexOf(open) + step + papers.length) % papers.length] ?? open;
    desk.turnTo(next);
    document.getElementById(`bench-tab-${next}`)?.focus();
  }

  return (
    <aside class="bench-papers" data-paper={open} aria-label={say('papers.name')}>
      <div class="bench-tabs" role="tablist" aria-label={say('papers.name')} onKeyDown={move}>
        {papers.map((paper) => (
          <button
            key={paper}
            id={`bench-tab-${paper}`}
            type="button"
            role="tab"
            aria-selected={paper === open}
            aria-controls="bench-paper"
            tabIndex={paper === open ? 0 : -1}
            onClick={() => {
              // on a phone, a touch on the open tab folds it away
              if (paper === open && !isFolded && isNarrow()) desk.isFolded.value = true;
              else desk.turnTo(paper);
            }}
          >
            {say(`paper.${paper}`)}
            {paper === 'faults' && attempt.claims.value.length > 0 && (
              <span class="bench-count">{attempt.claims.value.length}</span>
            )}
          </button>
        ))}
      </div>
      <div
        id="bench-paper"
        class="bench-paper"
        role="tabpanel"
        aria-labelledby={`bench-tab-${open}`}
        tabIndex={-1}
      >
        <PaperOf paper={open} attempt={attempt} desk={desk} />
      </div>
      {attempt.phase.value === 'working' && !attempt.started.value?.task.sitting && (
        <Foot attempt={attempt} desk={desk} />
      )}
    </aside>
  );
}

function papersOf(attempt: Attempt, desk: Desk): Paper[] {
  const hasFaults = attempt.started.value?.task.faults ?? false;
  return [
    ...(attempt.phase.value === 'handed-in' ? (['result'] as const) : []),
    'job',
    ...(attempt.started.value?.task.predict ? (['beforehand'] as const) : []),
    'parts',
    ...(hasFaults ? (['faults'] as const) : []),
    ...(desk.rack.value === null ? [] : (['rack'] as const)),
    ...(attempt.phase.value === 'working' ? (['cut'] as const) : []),
    'notebook',
  ];
}

function PaperOf({ paper, attempt, desk }: Props & { readonly paper: Paper }) {
  switch (paper) {
    case 'result':
      return (
        <WithResults>
          {({ OutcomePaper }) => <OutcomePaper attempt={attempt} desk={desk} />}
        </WithResults>
      );
    case 'job':
      return <JobCard attempt={attempt} desk={desk} />;
    case 'parts':
      return (
        <WithSheets>{({ PartsPaper }) => <PartsPaper attempt={attempt} desk={desk} />}</WithSheets>
      );
    case 'faults':
      return (
        <WithSheets>{({ FaultPaper }) => <FaultPaper attempt={attempt} desk={desk} />}</WithSheets>
      );
    case 'beforehand':
      return (
        <WithBeforehand>
          {({ BeforehandPaper }) => <BeforehandPaper attempt={attempt} desk={desk} />}
        </WithBeforehand>
      );
    case 'rack':
      return <WithRack>{({ RackPaper }) => <RackPaper attempt={attempt} desk={desk} />}</WithRack>;
    case 'cut':
      return <WithCut>{({ CutPaper }) => <CutPaper attempt={attempt} desk={desk} />}</WithCut>;
    case 'notebook':
      return <WithSheets>{({ NotebookPaper }) => <NotebookPaper attempt={attempt} />}</WithSheets>;
  }
}
