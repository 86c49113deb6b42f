// Spanish words of the debrief: verdict, lanes, views from outside, sharing.

/** @type {Readonly<Record<string, string>>} */
export const debrief = {
  'Replay on the panel': 'Reproducir en el panel',
  '{met} of {of} within limits': '{met} de {of} dentro de los límites',
  '{n} in all': '{n} en total',
  '{n} more, all met': '{n} más, todos cumplidos',
  '{n} more, not measured': '{n} más, no medidos',
  '{n} more: {met} met, {blank} not measured': '{n} más: {met} cumplidos, {blank} no medidos',
  'All checks, in the order of the turn': 'Todos los criterios, en el orden del viraje',
  'Recover to level flight first. Then look at what led to it.':
    'Primero recupera el vuelo nivelado. Luego mira qué llevó a ello.',
  'Lower the nose first, then level the wings, then power. Begin the next one at entry speed, pull less.':
    'Primero baja el morro, luego nivela las alas, luego potencia. Empieza el próximo a la velocidad de entrada y ' +
    'tira menos.',
  'Level the wings and climb. Begin the next one higher.': 'Nivela las alas y asciende. Empieza el próximo más alto.',
  'Power back, level the wings, then raise the nose gently. Let the nose fall less next time.':
    'Quita potencia, nivela las alas y luego sube el morro con suavidad. La próxima, deja caer menos el morro.',
  'Ease the pull. Roll level before pulling out next time.':
    'Afloja el tirón. La próxima, nivela las alas antes de recoger.',
  'Ease the pull and roll level. Hold the bank at the limit next time.':
    'Afloja el tirón y nivela las alas. La próxima, mantén el alabeo en el límite.',
  Lanes: 'Bandas',
  'Lanes, at most {n} at a time': 'Bandas, como máximo {n} a la vez',
  '{n} lanes shown': '{n} bandas a la vista',
  'Load factor': 'Factor de carga',
  'Roll rate': 'Velocidad de alabeo',
  Controls: 'Mandos',
  'Energy height from {from}° to {to}°: {flown}': 'Altura de energía de {from}° a {to}°: {flown}',
  'Energy height from {from}° to {to}°: {flown}, on the reference path {path}':
    'Altura de energía de {from}° a {to}°: {flown}, en la trayectoria de referencia {path}',
  'Energy height': 'Altura de energía',
  Energy: 'Energía',
  elevator: 'timón de profundidad',
  aileron: 'alerón',
  rudder: 'timón de dirección',
  throttle: 'gases',
  'Seen from': 'Visto desde',
  'From above': 'Desde arriba',
  'From behind': 'Desde atrás',
  'From the side': 'De lado',
  'Dashed: the ideal.': 'Línea discontinua: el ideal.',
  'Dashed: the ideal, at the same turn angle. Heights to scale; the ground is drawn under the lowest point.':
    'Línea discontinua: el ideal, al mismo ángulo de viraje. Alturas a escala; el suelo se dibuja bajo el punto más ' +
    'bajo.',
  'Heights to scale; the ground is drawn under the lowest point.':
    'Alturas a escala; el suelo se dibuja bajo el punto más bajo.',
  'The stream has neither a position nor heading and speed: there is no way to show.':
    'Los datos no traen ni posición ni rumbo y velocidad: no hay camino que mostrar.',
  horizon: 'horizonte',
  'The leg from behind': 'El tramo desde atrás',
  'The leg from the side': 'El tramo de lado',
  '{name}, {turn}° turned': '{name}, {turn}° de viraje',
  'bank {bank}, nose {nose}, height {height}': 'alabeo {bank}, morro {nose}, altura {height}',
  'flown: {what}': 'volado: {what}',
  'ideal: {what}': 'ideal: {what}',
  'Share and export': 'Compartir y exportar',
  'to share': 'para compartir',
  'one file (HTML)': 'un archivo (HTML)',
  'one page (PDF)': 'una página (PDF)',
  'Picture (PNG)': 'Imagen (PNG)',
  'This browser cannot make a PNG file of it: take the SVG file.':
    'Este navegador no puede hacer con ello un archivo PNG: usa el archivo SVG.',
  '{place} from the start': 'a {place} del inicio',
  'Picture (SVG)': 'Imagen (SVG)',
  'with the student’s name, the station and the remarks': 'con el nombre del alumno, el puesto y las observaciones',
  'Another aircraft or standard': 'Otro avión u otra norma',
  'The first grade stays; the new one is listed beside it.': 'La primera nota se queda; la nueva figura a su lado.',
};
