// Spanish sentences about what people make of grades, by their codes.

/** @type {Readonly<Record<string, string>>} */
export const verdicts = {
  'judging.overruled': 'anulado por {by}: {reason}',
  'judging.overruled-nameless': 'valorado de otra manera por una persona',
  'judging.no-reason': 'falta la razón; diga por qué se anula el veredicto',
  'judging.too-long': 'la razón tiene {letters} letras; deben ser como mucho {most}',
  'judging.verdict': 'el veredicto es {verdict}; debe ser met, near, missed, not-measured o vacío',
  'judging.no-check': 'el tramo {leg} de la sesión {session} no tiene la comprobación {check}',
  'judging.no-series-check': 'la serie {series} de la sesión {session} no tiene la comprobación {check}',
  'judging.no-leg': 'la sesión {session} no tiene el tramo {leg}',
  'judging.no-series': 'la sesión {session} no tiene la serie {series}',
  'judging.what': 'no se nombra nada que juzgar; debe ser un tramo o una serie',
  'judging.mark': 'la marca es {mark}; debe ser satisfactory, unsatisfactory, not-observed o vacía',
  'judging.no-element': 'la prueba de la serie {series} no tiene el elemento {element}',
  'judging.no-test': 'no hay prueba publicada de esta maniobra: no hay formulario que rellenar',
  'judging.grade': 'la nota es {grade}; debe ser unable, fair, good, excellent o vacía',
  'judging.thing': 'la única cosa es {thing}; debe ser una de las ofrecidas',
  'judging.full': 'la sesión {session} tiene {acts} anotaciones; no se aceptan más',
  'student.unknown': 'no hay ningún alumno {student} en el libro; halfturn students list nombra los que hay',
  'sign.nameless': 'falta el nombre; diga quién firma',
  'sign.unfinished': 'la sesión {session} aún se vuela; fírmela cuando termine',
  'sign.no-grades': 'la sesión {session} no tiene notas propias; no hay nada que firmar',
  'sign.twice': 'la sesión {session} ya está firmada por {by}, y desde entonces no se añadió nada',
};
