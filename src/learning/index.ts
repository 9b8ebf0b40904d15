export {
  answersByPerson,
  answersOf,
  eraseAnswers,
  type KeptLearning,
  keepAnswers,
  MOST_KEPT,
  type QuestionBank,
  readLearning,
  tasksBegun,
} from './keep-answers.ts';
export { MOST_AT_ONCE } from './requests.ts';
