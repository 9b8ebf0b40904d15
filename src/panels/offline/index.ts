export { keepQuietly } from './kept-course.ts';
