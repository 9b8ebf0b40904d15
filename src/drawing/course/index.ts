export { breakTitle, type DrawnLesson, drawCourse } from './draw-course.ts';
export { type CourseLayout, layOutCourse, type MapLesson } from './lay-out-course.ts';
