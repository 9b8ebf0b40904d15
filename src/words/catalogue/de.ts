import again from '../../../content/messages/de/again.json' with { type: 'json' };
import attempt from '../../../content/messages/de/attempt.json' with { type: 'json' };
import authorisation from '../../../content/messages/de/authorisation.json' with { type: 'json' };
import benchPanel from '../../../content/messages/de/bench-panel.json' with { type: 'json' };
import benchResult from '../../../content/messages/de/bench-result.json' with { type: 'json' };
import benchScales from '../../../content/messages/de/bench-scales.json' with { type: 'json' };
import benchTask from '../../../content/messages/de/bench-task.json' with { type: 'json' };
import book from '../../../content/messages/de/book.json' with { type: 'json' };
import bulk from '../../../content/messages/de/bulk.json' with { type: 'json' };
import checkpoints from '../../../content/messages/de/checkpoints.json' with { type: 'json' };
import checks from '../../../content/messages/de/checks.json' with { type: 'json' };
import cosign from '../../../content/messages/de/cosign.json' with { type: 'json' };
import criticalErrors from '../../../content/messages/de/critical-errors.json' with {
  type: 'json',
};
import desk from '../../../content/messages/de/desk.json' with { type: 'json' };
import devices from '../../../content/messages/de/devices.json' with { type: 'json' };
import doors from '../../../content/messages/de/doors.json' with { type: 'json' };
import drawing from '../../../content/messages/de/drawing.json' with { type: 'json' };
import due from '../../../content/messages/de/due.json' with { type: 'json' };
import earlier from '../../../content/messages/de/earlier.json' with { type: 'json' };
import erasing from '../../../content/messages/de/erasing.json' with { type: 'json' };
import faultWords from '../../../content/messages/de/fault-words.json' with { type: 'json' };
import figures from '../../../content/messages/de/figures.json' with { type: 'json' };
import figuresAboutTests from '../../../content/messages/de/figures-about-tests.json' with {
  type: 'json',
};
import frame from '../../../content/messages/de/frame.json' with { type: 'json' };
import glossary from '../../../content/messages/de/glossary.json' with { type: 'json' };
import groups from '../../../content/messages/de/groups.json' with { type: 'json' };
import home from '../../../content/messages/de/home.json' with { type: 'json' };
import howFigures from '../../../content/messages/de/how-figures.json' with { type: 'json' };
import lesson from '../../../content/messages/de/lesson.json' with { type: 'json' };
import lessonPanel from '../../../content/messages/de/lesson-panel.json' with { type: 'json' };
import limitTitles from '../../../content/messages/de/limit-titles.json' with { type: 'json' };
import limits from '../../../content/messages/de/limits.json' with { type: 'json' };
import machine from '../../../content/messages/de/machine.json' with { type: 'json' };
import matrix from '../../../content/messages/de/matrix.json' with { type: 'json' };
import myData from '../../../content/messages/de/my-data.json' with { type: 'json' };
import mySignIn from '../../../content/messages/de/my-sign-in.json' with { type: 'json' };
import names from '../../../content/messages/de/names.json' with { type: 'json' };
import observed from '../../../content/messages/de/observed.json' with { type: 'json' };
import offline from '../../../content/messages/de/offline.json' with { type: 'json' };
import otherRules from '../../../content/messages/de/other-rules.json' with { type: 'json' };
import pack from '../../../content/messages/de/pack.json' with { type: 'json' };
import passMarks from '../../../content/messages/de/pass-marks.json' with { type: 'json' };
import people from '../../../content/messages/de/people.json' with { type: 'json' };
import plainReply from '../../../content/messages/de/plain-reply.json' with { type: 'json' };
import practical from '../../../content/messages/de/practical.json' with { type: 'json' };
import practicalPanel from '../../../content/messages/de/practical-panel.json' with {
  type: 'json',
};
import practice from '../../../content/messages/de/practice.json' with { type: 'json' };
import privacy from '../../../content/messages/de/privacy.json' with { type: 'json' };
import progress from '../../../content/messages/de/progress.json' with { type: 'json' };
import proof from '../../../content/messages/de/proof.json' with { type: 'json' };
import proofPanel from '../../../content/messages/de/proof-panel.json' with { type: 'json' };
import rack from '../../../content/messages/de/rack.json' with { type: 'json' };
import refusals from '../../../content/messages/de/refusals.json' with { type: 'json' };
import register from '../../../content/messages/de/register.json' with { type: 'json' };
import resetLink from '../../../content/messages/de/reset-link.json' with { type: 'json' };
import review from '../../../content/messages/de/review.json' with { type: 'json' };
import ruleSets from '../../../content/messages/de/rule-sets.json' with { type: 'json' };
import search from '../../../content/messages/de/search.json' with { type: 'json' };
import share from '../../../content/messages/de/share.json' with { type: 'json' };
import sheetProblems from '../../../content/messages/de/sheet-problems.json' with { type: 'json' };
import signing from '../../../content/messages/de/signing.json' with { type: 'json' };
import sitting from '../../../content/messages/de/sitting.json' with { type: 'json' };
import standing from '../../../content/messages/de/standing.json' with { type: 'json' };
import statement from '../../../content/messages/de/statement.json' with { type: 'json' };
import story from '../../../content/messages/de/story.json' with { type: 'json' };
import taskWords from '../../../content/messages/de/task-words.json' with { type: 'json' };
import tests from '../../../content/messages/de/tests.json' with { type: 'json' };
import trialCut from '../../../content/messages/de/trial-cut.json' with { type: 'json' };
import verify from '../../../content/messages/de/verify.json' with { type: 'json' };
import verifyPanel from '../../../content/messages/de/verify-panel.json' with { type: 'json' };
import workings from '../../../content/messages/de/workings.json' with { type: 'json' };
import workshopRules from '../../../content/messages/de/workshop-rules.json' with { type: 'json' };
import type { Catalogue } from './index.ts';

/** The interface in German. */
export const DE: Partial<Catalogue> = {
  workings,
  again,
  progress,
  'fault-words': faultWords,
  figures,
  frame,
  home,
  doors,
  matrix,
  names,
  people,
  'bench-panel': benchPanel,
  'bench-result': benchResult,
  'bench-scales': benchScales,
  'bench-task': benchTask,
  'critical-errors': criticalErrors,
  rack,
  search,
  sitting,
  standing,
  'trial-cut': trialCut,
  lesson,
  'lesson-panel': lessonPanel,
  tests,
  refusals,
  review,
  'limit-titles': limitTitles,
  'rule-sets': ruleSets,
  observed,
  'task-words': taskWords,
  attempt,
  authorisation,
  drawing,
  'figures-about-tests': figuresAboutTests,
  pack,
  'pass-marks': passMarks,
  limits,
  'other-rules': otherRules,
  glossary,
  register,
  'reset-link': resetLink,
  machine,
  'my-sign-in': mySignIn,
  practice,
  desk,
  cosign,
  devices,
  statement,
  story,
  practical,
  proof,
  checks,
  'proof-panel': proofPanel,
  book,
  bulk,
  due,
  groups,
  share,
  'sheet-problems': sheetProblems,
  'practical-panel': practicalPanel,
  signing,
  offline,
  'how-figures': howFigures,
  'plain-reply': plainReply,
  'workshop-rules': workshopRules,
  checkpoints,
  verify,
  'verify-panel': verifyPanel,
  earlier,
  privacy,
  'my-data': myData,
  erasing,
};
