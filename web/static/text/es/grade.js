// Spanish of verdicts and headlines, by the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const grade = {
  'head.count': '{met} de {of} dentro de límites',
  'head.all': 'Los {of} criterios dentro de límites',
  'head.within': 'Dentro de la norma: {within}; casi: {what}',
  'head.nearly': 'Casi: {what}; {within}',
  'head.not-yet': 'Todavía no: {what}; {within}',
  'head.not-yet-more': 'Todavía no: {what} y {more} más; {within}',
  'head.past-limit': 'Fuera del límite: {what}; {within}',
  'head.stopped': 'Detenido por seguridad: {why}',
  'head.not-complete': 'Incompleto: {what}',
  'head.nothing': 'No se pudo medir nada',
  'head.not-measured': 'No medido: {why}',
  'head.unmeasured': '{headline}; {none} de {all} criterios no medidos',
  'head.corrected-once': '{headline}; una corrección por el camino',
  'head.corrected': '{headline}; {times} correcciones por el camino',
  'head.both-legs': 'Los dos tramos dentro de la norma',
  'head.legs': 'Los {legs} tramos dentro de la norma',
  'head.of-leg': 'Tramo {leg}: {headline}',
  'head.another': 'Se voló otra maniobra: {maneuver}',
  'change.none': 'Otra vez, igual',
};
