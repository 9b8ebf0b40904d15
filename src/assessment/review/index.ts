export { type Answer, compareAnswers, mergeAnswers, NEWEST_KEPT, questionKey } from './answers.ts';
export {
  answersInCourse,
  type CourseLesson,
  type Learnt,
  type LessonProgress,
  readCourse,
} from './course.ts';
export { type Due, findDue, type Remembered, recallAll } from './due.ts';
export { chanceRemembered, DUE_AT, type Memory, remember } from './memory.ts';
