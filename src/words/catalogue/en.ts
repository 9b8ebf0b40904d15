import again from '../../../content/messages/en/again.json' with { type: 'json' };
import attempt from '../../../content/messages/en/attempt.json' with { type: 'json' };
import authorisation from '../../../content/messages/en/authorisation.json' with { type: 'json' };
import benchPanel from '../../../content/messages/en/bench-panel.json' with { type: 'json' };
import benchResult from '../../../content/messages/en/bench-result.json' with { type: 'json' };
import benchScales from '../../../content/messages/en/bench-scales.json' with { type: 'json' };
import benchTask from '../../../content/messages/en/bench-task.json' with { type: 'json' };
import book from '../../../content/messages/en/book.json' with { type: 'json' };
import bulk from '../../../content/messages/en/bulk.json' with { type: 'json' };
import checkpoints from '../../../content/messages/en/checkpoints.json' with { type: 'json' };
import checks from '../../../content/messages/en/checks.json' with { type: 'json' };
import cosign from '../../../content/messages/en/cosign.json' with { type: 'json' };
import criticalErrors from '../../../content/messages/en/critical-errors.json' with {
  type: 'json',
};
import desk from '../../../content/messages/en/desk.json' with { type: 'json' };
import devices from '../../../content/messages/en/devices.json' with { type: 'json' };
import doors from '../../../content/messages/en/doors.json' with { type: 'json' };
import drawing from '../../../content/messages/en/drawing.json' with { type: 'json' };
import due from '../../../content/messages/en/due.json' with { type: 'json' };
import earlier from '../../../content/messages/en/earlier.json' with { type: 'json' };
import erasing from '../../../content/messages/en/erasing.json' with { type: 'json' };
import faultWords from '../../../content/messages/en/fault-words.json' with { type: 'json' };
import figures from '../../../content/messages/en/figures.json' with { type: 'json' };
import figuresAboutTests from '../../../content/messages/en/figures-about-tests.json' with {
  type: 'json',
};
import frame from '../../../content/messages/en/frame.json' with { type: 'json' };
import glossary from '../../../content/messages/en/glossary.json' with { type: 'json' };
import groups from '../../../content/messages/en/groups.json' with { type: 'json' };
import home from '../../../content/messages/en/home.json' with { type: 'json' };
import howFigures from '../../../content/messages/en/how-figures.json' with { type: 'json' };
import lesson from '../../../content/messages/en/lesson.json' with { type: 'json' };
import lessonPanel from '../../../content/messages/en/lesson-panel.json' with { type: 'json' };
import limitTitles from '../../../content/messages/en/limit-titles.json' with { type: 'json' };
import limits from '../../../content/messages/en/limits.json' with { type: 'json' };
import machine from '../../../content/messages/en/machine.json' with { type: 'json' };
import matrix from '../../../content/messages/en/matrix.json' with { type: 'json' };
import myData from '../../../content/messages/en/my-data.json' with { type: 'json' };
import mySignIn from '../../../content/messages/en/my-sign-in.json' with { type: 'json' };
import names from '../../../content/messages/en/names.json' with { type: 'json' };
import observed from '../../../content/messages/en/observed.json' with { type: 'json' };
import offline from '../../../content/messages/en/offline.json' with { type: 'json' };
import otherRules from '../../../content/messages/en/other-rules.json' with { type: 'json' };
import pack from '../../../content/messages/en/pack.json' with { type: 'json' };
import passMarks from '../../../content/messages/en/pass-marks.json' with { type: 'json' };
import people from '../../../content/messages/en/people.json' with { type: 'json' };
import plainReply from '../../../content/messages/en/plain-reply.json' with { type: 'json' };
import practical from '../../../content/messages/en/practical.json' with { type: 'json' };
import practicalPanel from '../../../content/messages/en/practical-panel.json' with {
  type: 'json',
};
import practice from '../../../content/messages/en/practice.json' with { type: 'json' };
import privacy from '../../../content/messages/en/privacy.json' with { type: 'json' };
import progress from '../../../content/messages/en/progress.json' with { type: 'json' };
import proof from '../../../content/messages/en/proof.json' with { type: 'json' };
import proofPanel from '../../../content/messages/en/proof-panel.json' with { type: 'json' };
import rack from '../../../content/messages/en/rack.json' with { type: 'json' };
import refusals from '../../../content/messages/en/refusals.json' with { type: 'json' };
import register from '../../../content/messages/en/register.json' with { type: 'json' };
import resetLink from '../../../content/messages/en/reset-link.json' with { type: 'json' };
import review from '../../../content/messages/en/review.json' with { type: 'json' };
import ruleSets from '../../../content/messages/en/rule-sets.json' with { type: 'json' };
import search from '../../../content/messages/en/search.json' with { type: 'json' };
import share from '../../../content/messages/en/share.json' with { type: 'json' };
import sheetProblems from '../../../content/messages/en/sheet-problems.json' with { type: 'json' };
import signing from '../../../content/messages/en/signing.json' with { type: 'json' };
import sitting from '../../../content/messages/en/sitting.json' with { type: 'json' };
import standing from '../../../content/messages/en/standing.json' with { type: 'json' };
import statement from '../../../content/messages/en/statement.json' with { type: 'json' };
import story from '../../../content/messages/en/story.json' with { type: 'json' };
import taskWords from '../../../content/messages/en/task-words.json' with { type: 'json' };
import tests from '../../../content/messages/en/tests.json' with { type: 'json' };
import trialCut from '../../../content/messages/en/trial-cut.json' with { type: 'json' };
import verify from '../../../content/messages/en/verify.json' with { type: 'json' };
import verifyPanel from '../../../content/messages/en/verify-panel.json' with { type: 'json' };
import workings from '../../../content/messages/en/workings.json' with { type: 'json' };
import workshopRules from '../../../content/messages/en/workshop-rules.json' with { type: 'json' };

/** Every word of the interface in English, sheet by sheet: the catalogue a translator starts from. */
export const EN = {
  workings,
  again,
  progress,
  'bench-panel': benchPanel,
  'bench-result': benchResult,
  'bench-scales': benchScales,
  'bench-task': benchTask,
  'how-figures': howFigures,
  'critical-errors': criticalErrors,
  'fault-words': faultWords,
  figures,
  frame,
  observed,
  rack,
  search,
  sitting,
  standing,
  'trial-cut': trialCut,
  home,
  doors,
  matrix,
  names,
  offline,
  people,
  lesson,
  'lesson-panel': lessonPanel,
  tests,
  refusals,
  review,
  'limit-titles': limitTitles,
  'rule-sets': ruleSets,
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
