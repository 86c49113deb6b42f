// German of what is said of courses.

/** @type {Readonly<Record<string, string>>} */
export const course = {
  'course.name': 'es gibt keinen Lehrgang {name}; es gibt: {names}',
  'course.step': 'der Lehrgang {course} hat keinen Schritt {step}; er hat: {names}',
  'course.no-weakness':
    'kein Prüfpunkt eines Teils von {maneuver} zeigt {cause}; halfturn causes zählt die Ursachen auf',
};
