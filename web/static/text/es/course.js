// Spanish of what is said of courses.

/** @type {Readonly<Record<string, string>>} */
export const course = {
  'course.name': 'no hay curso {name}; hay: {names}',
  'course.step': 'el curso {course} no tiene el paso {step}; tiene: {names}',
  'course.no-weakness':
    'ninguna comprobación de un tramo de {maneuver} muestra {cause}; halfturn causes enumera las causas',
  'drill.auto': 'para un ejercicio hay que elegir una maniobra, no la que se reconoce por el vuelo',
  'course.task': 'no se puede preparar el paso: falta {what} o no es correcto; abre el curso otra vez',
  'course.verdict': 'verdict es {verdict}; debe ser passed, not-yet o vacío',
  'course.no-reason': 'falta la razón; diga por qué el paso está superado, o todavía no',
  'course.not-flown': '{student} aún no ha volado; sobre un paso se decide después de haber volado algo',
  'course.not-ruled': 'nadie ha decidido sobre el paso {step}',
  'course.nothing-found':
    'en los últimos tramos no se encontró nada a partir de lo cual formar un curso; vuele algunos, o elija otro',
  'course.why-chosen': 'elegido a mano',
  'course.why-locked': 'elegido a mano; solo cuenta cuando el paso está abierto',
  'course.why-check': 'listo para el examen: un intento por lado, lo primero de hoy',
  'course.why-slipped': 'ya superado, y fallado otra vez desde entonces',
  'course.why-new': 'nuevo: primero varios seguidos',
  'course.why-mixed': 'aún no superado; mezclado con lo superado se conserva mejor',
  'course.why-warm-up': 'para calentar: el último vuelo fue hace {days} días',
  'course.why-due': 'para conservarlo: volado por última vez hace {days} días',
  'course.why-again': 'para mezclarlo con lo aún no superado',
};
