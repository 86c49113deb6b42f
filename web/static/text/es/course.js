// Spanish of what is said of courses.

/** @type {Readonly<Record<string, string>>} */
export const course = {
  'course.name': 'no hay curso {name}; hay: {names}',
  'course.step': 'el curso {course} no tiene el paso {step}; tiene: {names}',
  'course.no-weakness':
    'ninguna comprobación de un tramo de {maneuver} muestra {cause}; halfturn causes enumera las causas',
};
