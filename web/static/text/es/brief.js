// Spanish words of the brief.

/** @type {Readonly<Record<string, string>>} */
export const brief = {
  // the brief
  Brief: 'Briefing',
  Numbers: 'Números',
  'Before you begin': 'Antes de empezar',
  'In the turn': 'En el viraje',
  'Usual errors': 'Errores habituales',
  'What to see': 'Qué se ve',
  'What to fly': 'Qué se vuela',
  Callout: 'Aviso',
  Sources: 'Fuentes',
  'Reference path': 'Trayectoria de referencia',
  'reference point': 'punto de referencia',
  '{n} more': '{n} más',
  'What to change, when it goes wrong': 'Qué cambiar cuando sale mal',
  'What can cost most comes first.': 'Primero lo que más puede costar.',
  'The band is what is allowed, the line the reference path, over the turn':
    'La franja es lo permitido, la línea la trayectoria de referencia, a lo largo del viraje',
  'What is allowed, over the turn': 'Lo permitido, a lo largo del viraje',
  'From above, no wind, to the right': 'Desde arriba, sin viento, a la derecha',
  'From the side, one scale': 'De lado, a una misma escala',
  'From the side, height drawn {n} times': 'De lado, la altura dibujada {n} veces',
  'From the side it is a line: height is held.': 'De lado es una línea: la altura se mantiene.',
  'The reference path from above, entered upward, turning right':
    'La trayectoria de referencia desde arriba, entrada hacia arriba, viraje a la derecha',
  'The reference path from the side, entered to the right':
    'La trayectoria de referencia de lado, entrada hacia la derecha',
  'Not known: {what}.': 'No se conoce: {what}.',
  'They need an aircraft card: choose one above, or measure yours from a recording with':
    'Necesitan una ficha de avión: elige una arriba, o mide el tuyo a partir de una grabación con',
  ['Without an aircraft there is no reference path, so the highest nose, the height it takes, the load and the ' +
    'margin over the stall cannot be told.']:
    'Sin avión no hay trayectoria de referencia: no se pueden dar el morro más alto, la altura que requiere, la ' +
    'carga ni el margen sobre la pérdida.',
  'There is no reference path: {why}.': 'No hay trayectoria de referencia: {why}.',
  'All the numbers, and what to expect': 'Todos los números, y qué esperar',
};
